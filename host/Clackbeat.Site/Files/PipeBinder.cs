using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Hydraulics.Transients;
using Clackbeat.Site.Model;

namespace Clackbeat.Site.Files;

/// <summary>Where in a site file one section of the drive pipe stands: the single pipe's table, or a block of sections.</summary>
/// <param name="Table">Table.</param>
/// <param name="Block">Block of a repeated table; -1 for the single one.</param>
internal readonly record struct PipePlace(string Table, int Block)
{
    /// <summary>The name messages use: which of several sections is meant.</summary>
    public string Said => Block < 0 ? $"[{Table}]" : $"[[{Table}]] {Block + 1}";
}

/// <summary>Builds the drive pipe from values that passed the schema.</summary>
internal static class PipeBinder
{
    public const string Single = "drive_pipe";
    public const string Sections = "drive_pipe.section";

    /// <summary>The places of the pipe's sections, from the intake to the ram.</summary>
    public static IReadOnlyList<PipePlace> Places(SiteValues values)
    {
        var blocks = values.BlocksOf(Sections).ToList();
        return blocks.Count > 0 ? [.. blocks.Select(b => new PipePlace(Sections, b))] : [new PipePlace(Single, -1)];
    }

    /// <summary>Builds the pipe.</summary>
    public static DrivePipe Bind(SiteValues values) => new(Places(values).Select(place => Section(values, place)))
    {
        LengthUncertaintyM = values.Find<double>(Single, "length_uncertainty"),
        Restraint = values.Get<string>(Single, "restraint") switch
        {
            "anchored" => PipeRestraint.AnchoredThroughout,
            "anchored upstream" => PipeRestraint.AnchoredUpstream,
            "expansion joints" => PipeRestraint.ExpansionJoints,
            _ => null,
        },
        HighestTemperatureC = values.Find<double>(Single, "highest_temperature"),
        MinorLossCoefficient = values.Find<double>(Single, "minor_loss"),
    };

    /// <summary>The pipe that is sold by the size and class in the file; null where the tables know none, or several.</summary>
    public static CataloguePipe? Sold(SiteValues values, PipePlace place) =>
        values.Find<PipeMaterial>(place.Table, "material", place.Block) is { } material
        && values.Get<string>(place.Table, "size", place.Block) is { } size
            ? PipeSize.Find(
                material,
                size,
                values.Get<string>(place.Table, "class", place.Block),
                values.Find<double>(place.Table, "bore", place.Block))
            : null;

    private static PipeSection Section(SiteValues values, PipePlace place)
    {
        (string? table, int block) = place;
        double? Find(string key) => values.Find<double>(table, key, block);
        CataloguePipe? sold = Sold(values, place);
        return new PipeSection
        {
            Material = values.Get<PipeMaterial>(table, "material", block),
            LengthM = values.Get<double>(table, "length", block),
            // What was measured goes before what is sold under the name.
            BoreM = Find("bore") ?? PipeSize.BoreM(sold!),
            WallM = Find("wall") ?? WallFromOutside(Find("outside_diameter"), Find("bore")) ?? sold?.WallM,
            OutsideDiameterM = Find("outside_diameter") ?? (Find("wall") is null ? sold?.OutsideDiameterM : null),
            NominalSize = values.Get<string>(table, "size", block),
            PressureClass = values.Get<string>(table, "class", block) ?? sold?.Class,
            PressureRatingPa = Find("pressure_rating"),
            WaveSpeedMPerS = Find("wave_speed"),
            RoughnessM = Find("roughness"),
            Threaded = values.Find<bool>(table, "threaded", block),
        };
    }

    private static double? WallFromOutside(double? outside, double? bore) => (outside - bore) / 2;
}
