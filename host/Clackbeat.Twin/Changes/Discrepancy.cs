using Clackbeat.Signal.Figures;

namespace Clackbeat.Twin.Changes;

/// <summary>What the twin's make adds to the uncertainty of a ratio: chosen on virtual rams 7000 to 7011 (docs/twin.md).</summary>
internal static class Discrepancy
{
    private const double RateFloor = 0.01;
    private const double FlowFloor = 0.02;
    private const double PeakFloor = 0.05;
    private const double PerChange = 0.1;

    /// <summary>A figure of the twin that no measured one stands beside, as a share.</summary>
    private const double AloneShare = 0.15;

    private static readonly Ratios Floors = new(RateFloor, FlowFloor, FlowFloor, PeakFloor);

    /// <summary>Standard uncertainties as shares: by the parameters, and by the make, which grows with the change.</summary>
    internal static Ratios Of(Ratios ratios, Ratios byParameters) => byParameters.With(
        ratios, (p, r, floor) => Math.Sqrt((p * p) + Math.Pow(floor + (PerChange * Math.Abs(Math.Log(r))), 2)), Floors);

    /// <summary>Half of what twin and record disagree by, as a share: which of them is right isn't known.</summary>
    internal static double Misfit(double measured, double twin) =>
        measured > 0 && twin > 0 ? 0.5 * Math.Abs(Math.Log(twin / measured)) : 0;

    internal static Figure Alone(double value) => new(value, 2 * AloneShare * value);
}
