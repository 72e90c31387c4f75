using Clackbeat.Hydraulics.Pipes;
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

    /// <summary>What is worth a thought, in sentences.</summary>
    public IReadOnlyList<string> Advice { get; private init; } = [];

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
        .GroupBy(k => k.LeftOut)
        .Select(g => new LeftOutKey([.. g.Select(k => $"{k.Table}.{k.Key}")], g.Key));

    // A key whose place another key takes is not missed.
    private static bool SaidElsewhere(SiteKey key, RamSite site) => (key.Table, key.Key) switch
    {
        ("site", "units") => true,
        ("drive_pipe", "wall" or "outside_diameter") => site.DrivePipe.WallM is not null,
        ("drive_pipe", "class") => site.DrivePipe.PressureRatingPa is not null,
        ("drive_pipe", "wave_speed") => site.DrivePipe.Material != PipeMaterial.Other,
        ("drive_pipe", "highest_temperature") => !IsPlastic(site.DrivePipe.Material),
        ("waste_valve", "spring_rate") => site.WasteValve.SpringForceN is null,
        ("logger", "converter_bits" or "converter_zero" or "converter_full_scale" or "converter_window") => true,
        _ => false,
    };

    private static bool IsPlastic(PipeMaterial material) => material
        is PipeMaterial.PvcU or PipeMaterial.PvcO or PipeMaterial.Abs or PipeMaterial.Other
        or PipeMaterial.Pe100 or PipeMaterial.Pe80 or PipeMaterial.Pe4710;
}
