using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Water;
using Clackbeat.Twin.Fitting;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.Twin.Air;

/// <summary>
/// A twin's ram with vessel and main at work: the fit leaves the head in the vessel standing, here the vessel's air springs and the main laid
/// out for the site runs.
/// </summary>
public static class WorkingVessel
{
    /// <summary>The ram. What the main's friction takes at the twin's mean flow comes off its outlet, so that the vessel stands at the fitted head.</summary>
    /// <param name="ram">The twin's ram, its vessel standing.</param>
    /// <param name="twin">The twin.</param>
    /// <param name="airM3">Air in the vessel under the pressure of the main at rest [m³].</param>
    public static RamParameters Of(RamParameters ram, FittedTwin twin, double airM3)
    {
        ArgumentNullException.ThrowIfNull(ram);
        ArgumentNullException.ThrowIfNull(twin);
        double flow = twin.Cycle.DeliveredM3 / twin.Cycle.IntervalS;
        return ram with
        {
            AirVessel = twin.Frame.Designed.AirVessel with { GasM3 = airM3 },
            DeliveryMain = ram.DeliveryMain with { OutletHeadM = ram.DeliveryMain.OutletHeadM - FrictionM(ram, flow), RunningM3PerS = flow },
        };
    }

    /// <summary>Head that the main takes at a steady flow [m]: Darcy and Weisbach, fittings included.</summary>
    private static double FrictionM(RamParameters ram, double flowM3PerS)
    {
        MainParameters main = ram.DeliveryMain;
        double velocity = flowM3PerS / (Math.PI / 4 * main.BoreM * main.BoreM);
        double reynolds = Math.Max(1, Friction.Reynolds(velocity, main.BoreM, ram.Water.KinematicViscosityM2PerS));
        double loss = (Friction.DarcyFactor(reynolds, main.RoughnessM / main.BoreM) * main.LengthM / main.BoreM) + main.LossCoefficient;
        return loss * velocity * velocity / (2 * Constants.GravityMPerS2);
    }
}
