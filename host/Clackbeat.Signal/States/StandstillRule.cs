using Clackbeat.Signal.Traces;

namespace Clackbeat.Signal.States;

/// <summary>
/// How a ram that stands still stands: by the body's level as a share of the supply head. One rule for a whole record and for the live
/// page, so that both say the same of the same standstill.
/// </summary>
public static class StandstillRule
{
    // Of an old standstill only the newest stretch says how it stands now.
    private const double LongestLevelS = 30;

    /// <summary>
    /// Share of the supply head between an open and a shut waste valve. Of 150 virtual rams of all makes, stopped after some beats,
    /// the shut ones stood above 0.96 and all but two of the open ones under 0.87. Where no beat told the sensor's zero, the error of
    /// that zero is the larger one, and the border lies half-way.
    /// </summary>
    /// <param name="zeroKnown">Whether beats before the stop told the sensor's zero.</param>
    public static double Border(bool zeroKnown) => zeroKnown ? 0.9 : 0.75;

    /// <summary>How far from the border a level must lie to leave no doubt.</summary>
    /// <param name="zeroKnown">Whether beats before the stop told the sensor's zero.</param>
    public static double Doubtful(bool zeroKnown) => zeroKnown ? 0.05 : 0.15;

    /// <summary>
    /// Mean pressure at rest [Pa]. The first half of a silence still holds the run-up or the ring of the shut pipe; a ring that goes on
    /// averages out in the second, but not in a fraction of a second of it.
    /// </summary>
    /// <param name="samples">Recent samples.</param>
    /// <param name="sinceS">When the silence began [s]; −∞ for before the samples.</param>
    /// <param name="nowS">Newest sample [s].</param>
    public static double LevelPa(SampleBuffer samples, double sinceS, double nowS)
    {
        ArgumentNullException.ThrowIfNull(samples);
        double fromS = Math.Max(nowS - LongestLevelS, double.IsFinite(sinceS) ? 0.5 * (sinceS + nowS) : double.NegativeInfinity);
        ReadOnlySpan<double> pressuresPa = samples.PressuresPa(samples.FirstAtOrAfter(fromS), samples.End);
        double sum = 0;
        foreach (double pressurePa in pressuresPa)
        {
            sum += pressurePa;
        }

        return sum / Math.Max(1, pressuresPa.Length);
    }

    /// <summary>The state of a ram that stands still.</summary>
    /// <param name="share">Level over the sensor's zero, as a share of the supply head.</param>
    /// <param name="zeroKnown">Whether beats before the stop told that zero.</param>
    public static RamState StateOf(double share, bool zeroKnown) => share > Border(zeroKnown) ? RamState.StoppedShut : RamState.StoppedOpen;
}
