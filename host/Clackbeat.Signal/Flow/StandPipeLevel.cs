using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Water;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;

namespace Clackbeat.Signal.Flow;

/// <summary>
/// The level of a stand pipe above the drive pipe's mouth. What the ram draws moves it, dz/dt = (Q_feed − Q)/A_s, and the feed is a rigid
/// column with a loss, (L/gA) dQ_feed/dt = H − z − k Q_feed² (E. B. Wylie, V. L. Streeter, Fluid Transients in Systems, 1993, ch. 11). A
/// beat is taken as one of many alike, so that level and feed end it as they began it.
/// </summary>
internal sealed class StandPipeLevel
{
    // Entrance and exit of a feed on its velocity head, and the walls of a smooth pipe: as the virtual ram has them.
    private const double FeedEnds = 1.5;
    private const double FeedRoughnessM = 1e-5;

    // Half of a feed's loss is its bends and fittings' affair, of which the site file says nothing (judgement).
    private const double LossUncertainty = 0.3;

    private readonly double _drivePipeAreaM2;
    private readonly double _standAreaM2;
    private readonly double _feedAreaM2;
    private readonly double _feedLengthM;
    private readonly double _lossSPerM5;

    private StandPipeLevel(double drivePipeAreaM2, double standAreaM2, double feedAreaM2, double feedLengthM, double lossSPerM5) =>
        (_drivePipeAreaM2, _standAreaM2, _feedAreaM2, _feedLengthM, _lossSPerM5) =
        (drivePipeAreaM2, standAreaM2, feedAreaM2, feedLengthM, lossSPerM5);

    /// <summary>The stand pipe of a site; null without one. A feed that isn't described is taken as steady and without loss.</summary>
    public static StandPipeLevel? Of(RamSite site, SiteHydraulics hydraulics)
    {
        if (site.Supply.StandPipe is not { } stand)
        {
            return null;
        }

        double pipe = Circle(site.DrivePipe.BoreM);
        if (stand is not { FeedLengthM: { } length, FeedBoreM: { } bore })
        {
            return new StandPipeLevel(pipe, Circle(stand.BoreM), 0, 0, 0);
        }

        double reynolds = Friction.Reynolds(1, bore, hydraulics.Water.KinematicViscosityM2PerS);
        double loss = (Friction.DarcyFactor(reynolds, FeedRoughnessM / bore) * length / bore) + FeedEnds;
        double area = Circle(bore);
        return new StandPipeLevel(pipe, Circle(stand.BoreM), area, length, loss / (2 * Constants.GravityMPerS2 * area * area));
    }

    /// <summary>How far the mean level stands under the source [m].</summary>
    /// <param name="drawnVelocityMPerS">Mean velocity in the drive pipe.</param>
    public double LossM(double drawnVelocityMPerS)
    {
        double flow = drawnVelocityMPerS * _drivePipeAreaM2;
        return _lossSPerM5 * flow * flow;
    }

    /// <summary>Standard uncertainty of that loss [m].</summary>
    public static double LossUncertaintyM(double lossM) => LossUncertainty * lossM;

    /// <summary>The same beat with the swing of the level found from its velocities.</summary>
    /// <param name="window">The beat.</param>
    /// <param name="velocity">Velocities at the body [m/s]. Over a beat the mouth draws what the body passes, but for the water that the pipe
    /// stores in between: some per cent of the swing.</param>
    public FlowWindow Swung(FlowWindow window, ReadOnlySpan<double> velocity)
    {
        int from = window.At(window.Beat.ClosureS);
        int to = Math.Min(window.At(window.Beat.NextClosureS), velocity.Length - 1);
        if (to - from < 2)
        {
            return window;
        }

        double intervalS = window.TimeS[to] - window.TimeS[from];
        double drawn = 0;
        for (int i = from; i < to; i++)
        {
            drawn += 0.5 * (velocity[i] + velocity[i + 1]) * (window.TimeS[i + 1] - window.TimeS[i]);
        }

        double mean = drawn / intervalS * _drivePipeAreaM2;
        double[] levels = Periodic(window.TimeS.AsSpan(from, to - from + 1), velocity.Slice(from, to - from + 1), mean);
        double[] swing = new double[window.TimeS.Length];
        int place = 0;
        for (int i = 0; i < swing.Length; i++)
        {
            double phase = (window.TimeS[i] - window.TimeS[from]) % intervalS;
            double atS = window.TimeS[from] + (phase < 0 ? phase + intervalS : phase);
            place = atS < window.TimeS[from + place] ? 0 : place;
            while (place + 2 < levels.Length && window.TimeS[from + place + 1] <= atS)
            {
                place++;
            }

            double share = (atS - window.TimeS[from + place]) / (window.TimeS[from + place + 1] - window.TimeS[from + place]);
            swing[i] = levels[place] + (Math.Clamp(share, 0, 1) * (levels[place + 1] - levels[place]));
        }

        return window.WithSwing(swing);
    }

    /// <summary>The levels of a beat that repeats, less their mean [m]: three runs tell where it must begin, since level and feed are linear in that.</summary>
    private double[] Periodic(ReadOnlySpan<double> timeS, ReadOnlySpan<double> velocity, double mean)
    {
        double[] levels = new double[timeS.Length];
        (double level, double feed) = (0, 0);
        if (_feedAreaM2 > 0)
        {
            (double z0, double q0) = Run(timeS, velocity, mean, 0, 0, []);
            (double zz, double qz) = Run(timeS, velocity, mean, 1, 0, []);
            (double zq, double qq) = Run(timeS, velocity, mean, 0, mean, []);

            // (I − M) x = r, the second number in units of the mean flow.
            (double a, double b, double c, double d) = (1 - (zz - z0), -(zq - z0), -(qz - q0) / mean, 1 - ((qq - q0) / mean));
            double determinant = (a * d) - (b * c);
            if (Math.Abs(determinant) > 1e-9)
            {
                level = ((d * z0) - (b * q0 / mean)) / determinant;
                feed = ((a * q0 / mean) - (c * z0)) / determinant * mean;
            }
        }

        Run(timeS, velocity, mean, level, feed, levels);
        double area = 0;
        for (int i = 0; i + 1 < levels.Length; i++)
        {
            area += 0.5 * (levels[i] + levels[i + 1]) * (timeS[i + 1] - timeS[i]);
        }

        double middle = area / (timeS[^1] - timeS[0]);
        return [.. levels.Select(z => z - middle)];
    }

    /// <summary>Level and feed less their means at the end of a run.</summary>
    private (double LevelM, double FeedM3PerS) Run(
        ReadOnlySpan<double> timeS, ReadOnlySpan<double> velocity, double mean, double level, double feed, Span<double> levels)
    {
        double drag = 2 * _lossSPerM5 * mean;
        double drive = _feedAreaM2 > 0 ? Constants.GravityMPerS2 * _feedAreaM2 / _feedLengthM : 0;
        for (int i = 0; i < timeS.Length; i++)
        {
            if (!levels.IsEmpty)
            {
                levels[i] = level;
            }

            if (i + 1 < timeS.Length)
            {
                // Feed first, then the level by the new feed: the swing keeps its energy.
                double stepS = timeS[i + 1] - timeS[i];
                feed += stepS * drive * (-level - (drag * feed));
                level += stepS * (mean + feed - (0.5 * (velocity[i] + velocity[i + 1]) * _drivePipeAreaM2)) / _standAreaM2;
            }
        }

        return (level, feed);
    }

    private static double Circle(double boreM) => Math.PI / 4 * boreM * boreM;
}
