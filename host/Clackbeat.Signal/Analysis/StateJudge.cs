using Clackbeat.Signal.Beats;
using Clackbeat.Signal.Traces;

namespace Clackbeat.Signal.Analysis;

/// <summary>Tells what the ram was doing when the record ended.</summary>
/// <param name="State">The state.</param>
/// <param name="RestPa">Mean pressure at rest, for a ram that doesn't beat [Pa gauge].</param>
/// <param name="Doubt">What makes the state uncertain, as a sentence; null when nothing does.</param>
internal readonly record struct StateJudge(RamState State, double? RestPa, string? Doubt)
{
    /// <summary>
    /// Share of the supply head between an open and a shut waste valve. Of 150 virtual rams of all makes, stopped after some beats,
    /// the shut ones stood above 0.96 and all but two of the open ones under 0.87. Where no beat told the sensor's zero, the error of
    /// that zero is the larger one, and the border lies half-way.
    /// </summary>
    /// <param name="zeroKnown">Whether beats before the stop told the sensor's zero.</param>
    internal static double Border(bool zeroKnown) => zeroKnown ? 0.9 : 0.75;

    /// <summary>How far from the border a level must lie to leave no doubt.</summary>
    /// <param name="zeroKnown">Whether beats before the stop told the sensor's zero.</param>
    internal static double Doubtful(bool zeroKnown) => zeroKnown ? 0.05 : 0.15;

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
        if (detector.LastClosureS is { } closureS && endS - closureS <= LongestSilenceS(beats))
        {
            return new StateJudge(RamState.Beating, null, null);
        }

        double restPa = RestLevelPa(detector.Samples, detector.LowSinceS ?? double.NegativeInfinity, endS);
        double zeroPa = beats.Count > 0 ? Summaries.Median(beats, b => b.OpenStartPa).Value : sensorZeroPa;
        double share = (restPa - zeroPa) / supplyPa;
        RamState state = share > Border(beats.Count > 0) ? RamState.StoppedShut : RamState.StoppedOpen;
        return new StateJudge(state, restPa, DoubtOf(share, beats.Count > 0));
    }

    private static double LongestSilenceS(IReadOnlyList<Beat> beats) =>
        beats.Count > 0 ? 3 * Summaries.Quantile(Summaries.Sorted(beats, b => b.IntervalS), 0.95) : BeatDetector.LongestLullS;

    private static double RestLevelPa(SampleBuffer samples, double lowSinceS, double endS)
    {
        // The first half of the silence still holds the run-up or the ring.
        double fromS = Math.Max(endS - 30, double.IsFinite(lowSinceS) ? 0.5 * (lowSinceS + endS) : double.NegativeInfinity);
        ReadOnlySpan<double> pressuresPa = samples.PressuresPa(samples.FirstAtOrAfter(fromS), samples.End);
        double sum = 0;
        foreach (double pressurePa in pressuresPa)
        {
            sum += pressurePa;
        }

        return sum / Math.Max(1, pressuresPa.Length);
    }

    private static string? DoubtOf(double share, bool zeroKnown)
    {
        string percent = FormattableString.Invariant($"{100 * share:0} %");
        double apart = Math.Abs(share - Border(zeroKnown));
        return share switch
        {
            > 1.3 => $"At rest the body stands at {percent} of the supply head. That is too much for standing water: check the supply head in the site file, and whether the sensor reads zero when open to the air.",
            _ when apart < Doubtful(zeroKnown) => $"At rest the body stands at {percent} of the supply head, between a shut and an open waste valve. Look at the valve: water running from it means held open.",
            < 0.05 => $"The body stands at {percent} of the supply head: no water reaches it, the waste valve is wide open, or the sensor doesn't read. Check that water runs from the waste valve.",
            _ when !zeroKnown => "No beat was seen, so the sensor's zero could not be checked: a zero error of half the supply head would turn \"shut\" into \"open\".",
            _ => null,
        };
    }
}
