using System.CommandLine;
using System.Globalization;
using Clackbeat.Site;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;
using Clackbeat.Twin.Changes;
using Clackbeat.Words;

namespace Clackbeat.Commands.WhatIf;

/// <summary>One setting of a range.</summary>
/// <param name="Setting">The setting as a person writes it, such as "6.00 mm" or "-25 %".</param>
/// <param name="Factor">The setting over what it is now.</param>
/// <param name="Change">All that is changed with it.</param>
internal sealed record ChangeStep(string Setting, double Factor, RamChange Change)
{
    /// <summary>Where the setting stands along a range, in <see cref="Unit"/>.</summary>
    public double At { get; init; }

    /// <summary>Where the ram stands now.</summary>
    public double Now { get; init; }

    /// <summary>Unit of both; empty for a change in per cent.</summary>
    public string Unit { get; init; } = "";

    /// <summary>The setting is a volume of air, which only the record tells of now: <see cref="Factor"/> and <see cref="Now"/> are still to come.</summary>
    public bool IsAir { get; init; }
}

/// <summary>The options that say what is changed.</summary>
internal sealed class ChangeOptions
{
    // Enough for a curve that bends once, and each costs a fraction of a second.
    private const int Steps = 9;
    private const int PlaceDigits = 9;
    private const string RangeWord = " to ";

    private readonly Knob[] _knobs =
    [
        new(Make("--stroke", "Stroke of the waste valve, such as \"-25 %\", \"6 mm\" or \"4 mm to 12 mm\""),
            QuantityKind.Length, s => s.WasteValve.StrokeM, "[waste_valve] stroke", (c, f, _) => c with { Stroke = f }),
        new(Make("--weight", "Weight on the waste valve, or its spring, such as \"+25 %\""),
            QuantityKind.Mass, s => s.WasteValve.MassKg, "[waste_valve] mass", (c, f, _) => c with { Weight = f }),
        new(Make("--delivery-head", "Height of the delivery outlet over the waste valve, such as \"24 m\" or \"+20 %\""),
            QuantityKind.Length, s => s.Delivery.HeadM, "[delivery] head", (c, f, s) => c with { DeliveryHeadM = s.Delivery.HeadM * (f - 1) }),
        new(Make("--supply-head", "Supply level over the waste valve, such as \"2.1 m\" or \"-15 %\""),
            QuantityKind.Length, s => s.Supply.HeadM, "[supply] head", (c, f, s) => c with { SupplyHeadM = s.Supply.HeadM * (f - 1) }),
        new(Make("--drive-pipe-length", "Length of the drive pipe, such as \"18 m\""),
            QuantityKind.Length, s => s.DrivePipe.LengthM, "[drive_pipe] length", (c, f, _) => c with { DrivePipeLength = f }),
        new(Make("--drive-pipe-bore", "Bore of the drive pipe, its wall in proportion, such as \"63 mm\""),
            QuantityKind.Length, s => s.DrivePipe.BoreM, "[drive_pipe] bore", (c, f, _) => c with { DrivePipeBore = f }),
    ];

    private readonly DrivePipeOption _pipe = new();
    private readonly AirOption _air = new();

    public void AddTo(Command command)
    {
        foreach (Knob knob in _knobs)
        {
            command.Add(knob.Option);
        }

        command.Add(_pipe.Option);
        command.Add(_air.Option);
    }

    /// <summary>The settings that a command line asks for: none, one change, or those of a range.</summary>
    /// <param name="line">The command line.</param>
    /// <param name="site">The site.</param>
    /// <param name="isRange">One of the options names a range.</param>
    /// <exception cref="InputException">It can't be read, or needs what the site file doesn't give.</exception>
    public IReadOnlyList<ChangeStep> Read(ParseResult line, RamSite site, out bool isRange)
    {
        bool IsRange(Option<string?> option) => line.GetValue(option)?.Contains(RangeWord, StringComparison.OrdinalIgnoreCase) == true;
        Knob[] ranged = [.. _knobs.Where(k => IsRange(k.Option))];
        RamChange change = _knobs.Except(ranged).Aggregate(
            new RamChange(), (c, k) => line.GetValue(k.Option) is { } text ? k.Apply(c, Factor(k, text, site), site) : c);
        change = _pipe.Apply(line, site, change);
        bool isOfAir = IsRange(_air.Option);
        if (!isOfAir && line.GetValue(_air.Option) is { } air)
        {
            change = _air.Apply(air, site, change);
        }

        Option<string?>[] ranges = [.. ranged.Select(k => k.Option), .. isOfAir ? [_air.Option] : Array.Empty<Option<string?>>()];
        isRange = ranges.Length > 0;
        if (ranges.Length > 1)
        {
            throw InputException.Of("whatif.one-range", ("option", ranges[0].Name), ("other", ranges[1].Name));
        }

        if (!isRange)
        {
            return change.IsNone ? [] : [new ChangeStep("", 1, change)];
        }

        string[] ends = line.GetValue(ranges[0])!.Split(RangeWord, 2);
        return [.. isOfAir ? _air.Range(ends[0], ends[1], site, change, Steps) : Range(ranged[0], ends, change, site)];
    }

    /// <summary>A change as a person writes it.</summary>
    /// <param name="factor">The new value over the old.</param>
    public static string Percent(double factor) =>
        Phrases.Number(string.Create(CultureInfo.InvariantCulture, $"{100 * (factor - 1):+0.#;-0.#;0} %"));

    /// <summary>The unit in which a person writes such a quantity, and how many of it are one in SI.</summary>
    /// <param name="kind">What it is.</param>
    /// <param name="like">A value like those that are written, SI.</param>
    /// <param name="units">Metric or US.</param>
    public static (double PerSi, string Unit) UnitOf(QuantityKind kind, double like, Units units)
    {
        // A long number shows it; all of a range stand in the same.
        QuantityParts parts = QuantityFormat.Parts(kind, like, units, PlaceDigits);
        return (double.Parse(parts.Value, CultureInfo.InvariantCulture) / like, parts.Unit);
    }

    private static IEnumerable<ChangeStep> Range(Knob knob, string[] ends, RamChange change, RamSite site)
    {
        (double from, double to) = (Factor(knob, ends[0], site), Factor(knob, ends[1], site));
        if (from == to)
        {
            throw InputException.Of("whatif.no-range", ("option", knob.Option.Name), ("text", string.Join(RangeWord, ends)));
        }

        for (int i = 0; i < Steps; i++)
        {
            double factor = from + ((to - from) * i / (Steps - 1));
            yield return Placed(knob, factor, site, new ChangeStep(Written(knob, factor, site), factor, knob.Apply(change, factor, site)));
        }
    }

    private static ChangeStep Placed(Knob knob, double factor, RamSite site, ChangeStep step)
    {
        if (knob.Now(site) is not { } now)
        {
            return step with { At = 100 * (factor - 1) };
        }

        (double unit, string name) = UnitOf(knob.Kind, now, site.Units);
        return step with { At = factor * now * unit, Now = now * unit, Unit = name };
    }

    private static string Written(Knob knob, double factor, RamSite site) => knob.Now(site) is { } now
        ? Phrases.Format(knob.Kind, factor * now, site.Units)
        : Percent(factor);

    private static double Factor(Knob knob, string text, RamSite site) =>
        Setting.Parse(knob.Option.Name, text, knob.Kind).Over(knob.Option.Name, knob.Now(site), knob.Key);

    private static Option<string?> Make(string name, string description) => new(name) { Description = description, HelpName = "CHANGE" };

    /// <summary>Something that can be changed.</summary>
    /// <param name="Option">Its option.</param>
    /// <param name="Kind">What quantity it is.</param>
    /// <param name="Now">What it is now, SI; null where the site file doesn't say.</param>
    /// <param name="Key">The key of the site file that would say.</param>
    /// <param name="Apply">Makes the change by a factor.</param>
    private sealed record Knob(Option<string?> Option, QuantityKind Kind, Func<RamSite, double?> Now, string Key, Func<RamChange, double, RamSite, RamChange> Apply);
}
