using Clackbeat.Signal.Beats;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Physics;

namespace Clackbeat.Signal.Diagnosis;

/// <summary>
/// What the beats show beside the conditions: signs with one clear reading, which need no training. They stand among the findings of an
/// analysis and name no condition.
/// </summary>
public static class BeatRemarks
{
    private static readonly string[] Codes = ["interval-step", "foreign-rate", "outlet-drowned"];

    /// <summary>Whether a finding is one of these signs.</summary>
    /// <param name="finding">The finding.</param>
    public static bool IsOne(Fact finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        return Codes.Contains(finding.Code);
    }

    /// <summary>The signs.</summary>
    /// <param name="beats">Whole beats of the record in order.</param>
    /// <param name="steady">Those of its steady part.</param>
    /// <param name="startS">First sample of the record [s].</param>
    /// <param name="now">Features of its beats; null with too few.</param>
    /// <param name="well">The same of the ram when it was well; null without a baseline.</param>
    /// <param name="hydraulics">What follows from the site file.</param>
    /// <param name="supplyPa">Pressure of the supply head [Pa].</param>
    internal static IEnumerable<Fact> Of(
        IReadOnlyList<Beat> beats, IReadOnlyList<Beat> steady, double startS, Signature? now, Signature? well, SiteHydraulics hydraulics, double supplyPa)
    {
        Fact?[] found =
        [
            IntervalStep.Find(beats, startS),
            ForeignRate.Find(steady),
            now is null || well is null ? null : BackPressure.Find(now, well, supplyPa, hydraulics.PressurePa(1)),
        ];
        return found.OfType<Fact>();
    }
}
