using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;

namespace Clackbeat.Site.Check;

/// <summary>A key the file leaves out, and what that weakens.</summary>
/// <param name="Keys">The key, or several with the same consequence, as table.key.</param>
/// <param name="Weakens">What is taken instead or can't be said.</param>
public sealed record LeftOutKey(IReadOnlyList<string> Keys, string Weakens);

/// <summary>What a site file lacks, contradicts and lets one expect.</summary>
public sealed record SiteCheck
{
    private SiteCheck()
    {
    }

    /// <summary>The site; null when the file could not be put together.</summary>
    public RamSite? Site { get; private init; }

    /// <summary>What must be mended.</summary>
    public required IReadOnlyList<SiteProblem> Problems { get; init; }

    /// <summary>What is worth a thought.</summary>
    public IReadOnlyList<Fact> Advice { get; private init; } = [];

    /// <summary>Keys left out.</summary>
    public IReadOnlyList<LeftOutKey> LeftOut { get; private init; } = [];

    /// <summary>Expected figures; null when the site could not be put together.</summary>
    public ExpectedFigures? Expected { get; private init; }

    /// <summary>Checks a site file that was read.</summary>
    /// <param name="reading">The file, see <see cref="SiteFile.Read"/>.</param>
    public static SiteCheck Of(SiteReading reading)
    {
        if (reading is not { Site: { } site, Values: { } values } || reading.Problems.Count > 0)
        {
            return new SiteCheck { Problems = reading.Problems };
        }

        var expected = ExpectedFigures.For(site);
        return new SiteCheck
        {
            Site = site,
            Problems = [.. SiteRemarks.Problems(site, values, expected)],
            Advice = [.. SiteRemarks.Advice(site, expected)],
            LeftOut = [.. LeftOutOf(site, values)],
            Expected = expected,
        };
    }

    private static IEnumerable<LeftOutKey> LeftOutOf(RamSite site, SiteValues values) => SiteSchema.Keys
        .Where(k => k.LeftOut.Length > 0 && !SiteSchema.TryTable(k.Table)!.Repeated)
        .Where(k => !values.Has(k.Table, k.Key) && !SaidElsewhere(k, site))
        .Select(k => (Name: $"{k.Table}.{k.Key}", k.LeftOut))
        .Concat(LeftOutOfSections(site, values))
        .GroupBy(k => k.LeftOut)
        .Select(g => new LeftOutKey([.. g.Select(k => k.Name)], g.Key));

    private static IEnumerable<(string Name, string LeftOut)> LeftOutOfSections(RamSite site, SiteValues values) =>
        from pair in site.DrivePipe.Sections.Zip(PipeBinder.Places(values)).Select((p, i) => (Section: p.First, Place: p.Second, Number: i + 1))
        where pair.Place.Block >= 0
        from key in SiteSchema.KeysOf(PipeBinder.Sections)
        where key.LeftOut.Length > 0 && !values.Has(key.Table, key.Key, pair.Place.Block)
        where key.Key != "wall" || pair.Section.WallM is null
        select ($"{key.Table} {pair.Number} {key.Key}", key.LeftOut);

    // A key whose place another key takes is not missed.
    private static bool SaidElsewhere(SiteKey key, RamSite site) => (key.Table, key.Key) switch
    {
        ("site", "units") => true,
        // The sections have these keys themselves.
        ("drive_pipe", _) when site.DrivePipe.IsMixed && SiteSchema.TryKey(PipeBinder.Sections, key.Key) is not null => true,
        ("drive_pipe", "wall" or "outside_diameter") => site.DrivePipe.WallM is not null,
        ("drive_pipe", "class") => site.DrivePipe.PressureRatingPa is not null,
        ("drive_pipe", "wave_speed") => site.DrivePipe.Material != PipeMaterial.Other,
        ("drive_pipe", "highest_temperature") => !site.DrivePipe.Sections.Any(s => IsPlastic(s.Material)),
        ("supply", "feed_length" or "feed_bore") => site.Supply.StandPipe is null,
        ("waste_valve", "kind") => site.WasteValve.SpringForceN is not null,
        ("waste_valve", "spring_rate") => site.WasteValve.SpringForceN is null,
        ("logger", "converter_bits" or "converter_zero" or "converter_full_scale" or "converter_window") => true,
        _ => false,
    };

    private static bool IsPlastic(PipeMaterial material) => material
        is PipeMaterial.PvcU or PipeMaterial.PvcO or PipeMaterial.Abs or PipeMaterial.Other
        or PipeMaterial.Pe100 or PipeMaterial.Pe80 or PipeMaterial.Pe4710;
}
