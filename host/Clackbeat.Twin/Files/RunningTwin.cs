using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Water;
using Clackbeat.Twin.Fitting;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.Twin.Files;

/// <summary>A twin as a virtual ram that runs for any time: with the vessel and the main laid out for its site, which the fit left standing.</summary>
public static class RunningTwin
{
    /// <summary>The ram. What the main's friction takes at the twin's mean flow comes off its outlet, so that the vessel stands at the fitted head.</summary>
    /// <param name="twin">The twin.</param>
    public static RamParameters Of(FittedTwin twin)
    {
        ArgumentNullException.ThrowIfNull(twin);
        RamParameters fitted = twin.Frame.Ram(twin.Values);
        RamParameters designed = twin.Frame.Designed;
        MainParameters main = designed.DeliveryMain;
        double velocity = twin.Cycle.DeliveredM3 / twin.Cycle.IntervalS / (Math.PI / 4 * main.BoreM * main.BoreM);
        double reynolds = Math.Max(1, Friction.Reynolds(velocity, main.BoreM, designed.Water.KinematicViscosityM2PerS));
        double loss = (Friction.DarcyFactor(reynolds, main.RoughnessM / main.BoreM) * main.LengthM / main.BoreM) + main.LossCoefficient;
        double friction = loss * velocity * velocity / (2 * Constants.GravityMPerS2);
        return fitted with
        {
            AirVessel = designed.AirVessel,
            DeliveryMain = main with { OutletHeadM = fitted.DeliveryMain.OutletHeadM - friction },
        };
    }
}
