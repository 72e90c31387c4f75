using Clackbeat.Hydraulics.Water;
using Clackbeat.Signal.Beats;
using Clackbeat.Signal.Figures;

namespace Clackbeat.Signal.Flow;

/// <summary>What the echoes of the mean beat say of the wave speed.</summary>
/// <param name="MPerS">Wave speed whose echoes stand out most [m/s].</param>
/// <param name="SiteShort">How far the site's own wave speed falls short of that, in deviations over all wave speeds; 0 when it doesn't.</param>
internal readonly record struct Echo(double MPerS, double SiteShort)
{
    private const int MostBeats = 64;
    private const double BeforeShare = 0.12;

    // Only the shape counts.
    private const double DensityKgPerM3 = 1000;

    // On 96 virtual rams (docs/flow-method.md) the site's wave speed, where it was true, never fell short by more than 0.91;
    // with air in the pipe it did by 1.16 or more in seven rams of eleven, and in nine of them with ten times the noise.
    private const double Overrules = 1.05;

    /// <summary>Standard uncertainty over the value, where nothing else sharpens it.</summary>
    public const double Uncertainty = 0.05;

    /// <summary>Whether a wave speed is the one whose echoes these are.</summary>
    public bool Fits(double waveSpeedMPerS) => Math.Abs(Math.Log(waveSpeedMPerS / MPerS)) < 2 * Uncertainty;

    /// <summary>
    /// Times the echoes; null when there is none, or the site's wave speed explains them about as well. The median of many
    /// beats is taken first, so noise that drowns the echoes of one beat hardly matters.
    /// </summary>
    /// <param name="windows">Beats.</param>
    /// <param name="site">The column as the site tells it.</param>
    public static Echo? Against(IReadOnlyList<FlowWindow> windows, in ColumnModel site)
    {
        int every = (windows.Count + MostBeats - 1) / MostBeats;
        double[] intervals = [.. windows.Select(w => w.Beat.IntervalS).Order()];
        double intervalS = intervals[intervals.Length / 2];
        TraceCurve typical = TypicalBeat.Of([.. windows.Where((_, i) => i % every == 0).Select(Curve)], intervalS);
        if (EchoFinder.Find(typical, site.PeriodS, intervalS) is not { } found || found.SiteShort < Overrules)
        {
            return null;
        }

        double speed = 2 * site.LengthM / found.PeriodS;
        return speed < site.WaveSpeedMPerS ? new Echo(speed, found.SiteShort) : null;
    }

    private static TraceCurve Curve(FlowWindow window)
    {
        Beats.Beat beat = window.Beat;
        int from = window.At(beat.ClosureS - (BeforeShare * beat.IntervalS));
        int to = window.At(beat.NextClosureS);
        double[] timeS = new double[to - from];
        double[] pressurePa = new double[to - from];
        for (int i = 0; i < timeS.Length; i++)
        {
            timeS[i] = window.TimeS[from + i] - beat.ClosureS;
            pressurePa[i] = Head.ToPressurePa(window.HeadM[from + i], DensityKgPerM3);
        }

        return new TraceCurve(timeS, pressurePa);
    }
}
