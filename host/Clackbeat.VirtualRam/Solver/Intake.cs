using Clackbeat.Hydraulics.Water;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.VirtualRam.Solver;

/// <summary>
/// The pipe's mouth: entrance loss with the velocity head forwards, strainer loss backwards. Its level stands, or is that of a
/// stand pipe: dz/dt = (Q_feed − Q)/A_s with the feed as a rigid column (E. B. Wylie and V. L. Streeter, 1993, ch. 11).
/// </summary>
internal sealed class Intake
{
    private readonly SupplyParameters _supply;
    private readonly double _stepS;
    private readonly double _entranceLoss;
    private readonly double _exitLoss;
    private double _timeS;

    internal Intake(SupplyParameters supply, double areaM2, double stepS)
    {
        _supply = supply;
        _stepS = stepS;
        double velocityHead = 1 / (2 * Constants.GravityMPerS2 * areaM2 * areaM2);
        _entranceLoss = (1 + supply.LossCoefficient) * velocityHead;
        _exitLoss = Math.Max(0, supply.LossCoefficient) * velocityHead;
        LevelM = supply.HeadM;
    }

    /// <summary>Water level over the mouth [m].</summary>
    internal double LevelM { get; private set; }

    /// <summary>Flow of the feed into the stand pipe [m³/s].</summary>
    internal double FeedM3PerS { get; private set; }

    /// <summary>Head and flow of the mouth for what returns along the pipe.</summary>
    internal (double HeadM, double FlowM3PerS) Solve(double returningM, double impedance)
    {
        double drive = LevelM - returningM;
        double loss = drive >= 0 ? _entranceLoss : _exitLoss;
        double q = 2 * drive / (impedance + Math.Sqrt(impedance * impedance + 4 * loss * Math.Abs(drive)));
        return (LevelM - loss * q * Math.Abs(q), q);
    }

    /// <summary>Moves the level by what the pipe drew in the step.</summary>
    internal void Advance(double drawnM3PerS)
    {
        _timeS += _stepS;
        if (_supply.StandPipe is not { } stand)
        {
            return;
        }

        double velocity = FeedM3PerS / stand.FeedAreaM2;
        double loss = stand.FeedLoss * velocity * Math.Abs(velocity) / (2 * Constants.GravityMPerS2);
        FeedM3PerS += _stepS * Constants.GravityMPerS2 * stand.FeedAreaM2 / stand.FeedLengthM * (_supply.HeadM - LevelM - loss);
        // Flow first, then level by the new flow: the swing keeps its energy.
        double neighbour = 2 * stand.NeighbourM3PerS * (_timeS / stand.NeighbourPeriodS % 1);
        LevelM += _stepS * (FeedM3PerS - drawnM3PerS - neighbour) / stand.AreaM2;
    }
}
