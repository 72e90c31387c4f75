using Clackbeat.Twin.Air;
using Clackbeat.Twin.Fitting;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.Twin.Files;

/// <summary>A twin as a virtual ram that runs for any time: with the vessel and the main laid out for its site, which the fit left standing.</summary>
public static class RunningTwin
{
    /// <summary>The ram, its main at rest when it starts.</summary>
    /// <param name="twin">The twin.</param>
    public static RamParameters Of(FittedTwin twin)
    {
        ArgumentNullException.ThrowIfNull(twin);
        RamParameters working = WorkingVessel.Of(twin.Frame.Ram(twin.Values), twin, twin.Frame.Designed.AirVessel.GasM3);
        return working with { DeliveryMain = working.DeliveryMain with { RunningM3PerS = 0 } };
    }
}
