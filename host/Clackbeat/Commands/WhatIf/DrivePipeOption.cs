using System.CommandLine;
using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Site;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;
using Clackbeat.Twin.Changes;

namespace Clackbeat.Commands.WhatIf;

/// <summary>--drive-pipe: another drive pipe, in parts such as "length 18 m, bore 63 mm, material PE100, wall 5.8 mm".</summary>
internal sealed class DrivePipeOption
{
    private const string Length = "length";
    private const string Bore = "bore";
    private const string Wall = "wall";
    private const string Material = "material";

    /// <summary>The option.</summary>
    public Option<string?> Option { get; } = new("--drive-pipe")
    {
        Description = "Another drive pipe: length, bore, material and wall, what is left out stays, such as \"length 18 m, material PE100, wall 5.8 mm\"",
        HelpName = "PARTS",
    };

    /// <summary>Puts the pipe that a command line asks for into a change.</summary>
    /// <param name="line">The command line.</param>
    /// <param name="site">The site.</param>
    /// <param name="change">The change so far.</param>
    /// <exception cref="InputException">A part can't be read.</exception>
    public RamChange Apply(ParseResult line, RamSite site, RamChange change)
    {
        foreach (string part in (line.GetValue(Option) ?? "").Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries))
        {
            string[] words = part.Split(' ', 2, StringSplitOptions.TrimEntries);
            string value = words.Length > 1 ? words[1] : "";
            change = words[0].ToUpperInvariant() switch
            {
                "LENGTH" => change with { DrivePipeLength = Factor(Length, value, site.DrivePipe.LengthM) },
                "BORE" => change with { DrivePipeBore = Factor(Bore, value, site.DrivePipe.BoreM) },
                "WALL" => change with { DrivePipeWallM = WallM(value, site.DrivePipe.WallM) },
                "MATERIAL" when MaterialNames.TryParse(value, out PipeMaterial named) => change with { DrivePipeMaterial = named },
                _ when MaterialNames.TryParse(part, out PipeMaterial material) => change with { DrivePipeMaterial = material },
                _ => throw InputException.Of("whatif.no-pipe-part", ("text", part), ("parts", $"{Length}, {Bore}, {Material}, {Wall}")),
            };
        }

        return change;
    }

    private double Factor(string part, string text, double now) => Parse(part, text).Over(Name(part), now, $"[drive_pipe] {part}");

    private double WallM(string text, double? now)
    {
        Setting wall = Parse(Wall, text);
        return wall.Absolute ?? (now is { } n ? n * wall.Over(Name(Wall), n, "[drive_pipe] wall") : wall.Over(Name(Wall), null, "[drive_pipe] wall"));
    }

    private Setting Parse(string part, string text) => Setting.Parse(Name(part), text, QuantityKind.Length);

    private string Name(string part) => $"{Option.Name} {part}";
}
