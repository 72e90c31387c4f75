using Clackbeat.Hydraulics.Water;
using Clackbeat.Twin.Fitting;
using Clackbeat.Twin.Model;
using Clackbeat.VirtualRam.Parameters;
using MathNet.Numerics.Distributions;

namespace Clackbeat.Twin.Changes;

/// <summary>
/// Whether a ram beats by itself. The flow with the waste valve held open must lift its plug: the head across the valve then, over the
/// head that lifts it, is the reserve. The twin's run tells the rest: whether the recoil opens the valve again.
/// </summary>
internal sealed class WillBeat(FittedTwin twin)
{
    // Neither reserve nor the twin's run is surer than this.
    private const double ReserveSpread = 0.08;
    private const double WrongRun = 0.03;

    internal double Of(RamParameters ram, bool beats)
    {
        ValveParameters valve = ram.WasteValve;
        double spread = Math.Sqrt(Math.Pow(ReserveSpread, 2) + twin.Covariance[(int)TwinParameter.LiftingHead, (int)TwinParameter.LiftingHead]);
        double? reserve = valve.Floats ? (double?)null : Math.Log(OpenHeadM(ram) / LiftingHeadM(ram));
        double byFlow = reserve is { } r ? Normal.CDF(0, 1, r / spread) : 1;
        return beats ? (1 - WrongRun) * byFlow : WrongRun + ((1 - WrongRun) * Math.Min(byFlow, 0.5) * (reserve is null ? 0 : 0.2));
    }

    private static double LiftingHeadM(RamParameters ram)
    {
        ValveParameters valve = ram.WasteValve;
        double weight = ram.Water.DensityKgPerM3 * Constants.GravityMPerS2;
        return valve.OpeningForceN(valve.TravelM) / (weight * valve.SeatAreaM2 * valve.ForceShareAtStop);
    }

    /// <summary>Head across the valve while steady flow runs through it [m].</summary>
    private static double OpenHeadM(RamParameters ram)
    {
        double open = ram.WasteValve.OpenAreaM2(ram.WasteValve.TravelM);
        double valve = 1 / (open * open);
        double first = ram.Sections[0].AreaM2;
        double losses = (1 + ram.Supply.LossCoefficient) / (first * first)
            + ram.Sections.Sum(s => TwinFrame.FrictionFactor(s, ram.Water) * s.LengthM / s.BoreM / (s.AreaM2 * s.AreaM2));
        return ram.Supply.HeadM * valve / (valve + losses);
    }
}
