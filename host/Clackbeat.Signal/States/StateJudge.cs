using Clackbeat.Signal.Beats;
using Clackbeat.Site.Facts;

namespace Clackbeat.Signal.States;

/// <summary>Tells what the ram was doing when the record ended.</summary>
/// <param name="State">The state.</param>
/// <param name="RestPa">Mean pressure at rest, for a ram that doesn't beat [Pa gauge].</param>
/// <param name="Doubt">What makes the state uncertain; null when nothing does.</param>
internal readonly record struct StateJudge(RamState State, double? RestPa, Fact? Doubt)
{
    private const double LeastRise = 0.5;

    // Beats at the end of a record may be cut or odd: so many silences without a whole one are still no standstill.
    private const double Patience = 3;

    /// <summary>
    /// With the waste valve shut nothing flows and the body stands at the full supply head. Held open, water runs, and
    /// pipe friction and velocity head leave the body well under it. The level just after a recoil, when the column
    /// is at rest, tells the sensor's zero.
    /// </summary>
    /// <param name="detector">The detector, after its last sample.</param>
    /// <param name="beats">Whole beats in order.</param>
    /// <param name="endS">Time of the last sample [s].</param>
    /// <param name="supplyPa">ρgH [Pa].</param>
    /// <param name="sensorZeroPa">What the sensor should read with the body at the datum's level [Pa]: −ρg × its height.</param>
    public static StateJudge Of(
        BeatDetector detector, IReadOnlyList<Beat> beats, double endS, double supplyPa, double sensorZeroPa)
    {
        double silenceS = LongestSilenceS(beats);
        if (detector.LastClosureS is { } closureS && endS - closureS <= silenceS && !(endS - LastWholeS(beats) > Patience * silenceS))
        {
            return new StateJudge(RamState.Beating, null, null);
        }

        double restPa = StandstillRule.LevelPa(detector.Samples, detector.LowSinceS ?? double.NegativeInfinity, endS);
        double zeroPa = beats.Count > 0 ? Summaries.Median(beats, b => b.OpenStartPa) : sensorZeroPa;
        double share = (restPa - zeroPa) / supplyPa;
        RamState state = StandstillRule.StateOf(share, beats.Count > 0);
        return new StateJudge(state, restPa, DoubtOf(share, beats.Count > 0));
    }

    // A shut pipe may ring on for a minute, and once the levels have sunk to its swing a crest looks like a knock. Whole beats that rise as
    // the ram's own do are none of these.
    private static double? LastWholeS(IReadOnlyList<Beat> beats)
    {
        if (beats.Count == 0)
        {
            return null;
        }

        double usualPa = Summaries.Median(beats, b => b.DeliveryPa - b.OpenStartPa);
        return beats.Where(b => b.DeliveryPa - b.OpenStartPa > LeastRise * usualPa).Select(b => (double?)b.NextClosureS).LastOrDefault();
    }

    private static double LongestSilenceS(IReadOnlyList<Beat> beats) =>
        beats.Count > 0 ? 3 * Summaries.Quantile(Summaries.Sorted(beats, b => b.IntervalS), 0.95) : BeatDetector.LongestLullS;

    private static Fact? DoubtOf(double share, bool zeroKnown)
    {
        double apart = Math.Abs(share - StandstillRule.Border(zeroKnown));
        return share switch
        {
            > 1.3 => Fact.Of("rest-above-supply", ("head_share", share)),
            _ when apart < StandstillRule.Doubtful(zeroKnown) => Fact.Of("rest-between", ("head_share", share)),
            < 0.05 => Fact.Of("rest-near-nothing", ("head_share", share)),
            _ when !zeroKnown => Fact.Of("zero-unchecked"),
            _ => null,
        };
    }
}
