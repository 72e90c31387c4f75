using Clackbeat.Twin.Air;
using Clackbeat.Twin.Fitting;
using Clackbeat.Twin.Model;

namespace Clackbeat.Twin.Changes;

/// <summary>Runs of the ram as it is with its vessel at work: what a change of the air is compared with. Made once.</summary>
/// <param name="Now">The air now.</param>
/// <param name="Cycle">The twin's beat with it.</param>
/// <param name="Others">The beats of the other parameter sets with it.</param>
internal sealed record AirRuns(VesselAir Now, Cycle Cycle, IReadOnlyList<(double[] Values, Cycle Cycle)> Others)
{
    /// <summary>
    /// The twin's beat with a standard deviation less air than the median, where air matters most, and that air [m³]; empty where it stands.
    /// </summary>
    public IReadOnlyList<(double AirM3, Cycle Cycle)> Less { get; private init; } = [];

    /// <summary>Makes them; null where the twin stands with its vessel at work.</summary>
    /// <param name="twin">The twin.</param>
    /// <param name="others">The other parameter sets.</param>
    internal static AirRuns? Of(FittedTwin twin, IReadOnlyList<double[]> others)
    {
        var now = VesselAir.Of(twin);
        Cycle? Run(IReadOnlyList<double> values, double airM3) =>
            CycleRun.Of(WorkingVessel.Of(twin.Frame.Ram(values), twin, airM3), twin.Measured.IntervalS);
        if (Run(twin.Values, now.M3) is not { } cycle)
        {
            return null;
        }

        double lessM3 = now.M3 * Math.Exp(-now.LogSpread);
        return new AirRuns(now, cycle, [.. others.Select(v => (v, Run(v, now.M3)!)).Where(o => o.Item2 is not null)])
        {
            Less = Run(twin.Values, lessM3) is { } less ? [(lessM3, less)] : [],
        };
    }
}
