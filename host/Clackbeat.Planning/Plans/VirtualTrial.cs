using Clackbeat.Hydraulics;
using Clackbeat.Site.Model;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Parameters;
using Clackbeat.VirtualRam.Truth;

namespace Clackbeat.Planning.Plans;

/// <summary>The virtual ram run on a planned pipe: what it would take, give and beat where nothing is known of its valves.</summary>
/// <param name="BeatsPerMin">Beats a minute.</param>
/// <param name="PeakPa">Highest pressure in the body [Pa gauge].</param>
/// <param name="DrawnM3PerS">Water drawn by one ram [m³/s].</param>
/// <param name="DeliveredPerBeatM3">Delivered in one beat [m³].</param>
/// <param name="ClosingMPerS">Velocity in the pipe as the waste valve shuts [m/s].</param>
/// <param name="Efficiency">D'Aubuisson efficiency.</param>
public sealed record VirtualTrial(
    Band BeatsPerMin, Band PeakPa, Band DrawnM3PerS, Band DeliveredPerBeatM3, Band ClosingMPerS, Band Efficiency)
{
    // Coarse: what is not known of a planned ram is worth far more than a per cent.
    private const double StepS = 5e-4;
    private const int Reaches = 60;
    private const double WarmUpS = 6;
    private const double LongestS = 15;
    private const int Beats = 5;

    private static readonly RamCharacter[] Characters = [RamCharacter.Smooth, RamCharacter.Lively];

    /// <summary>Runs a smooth and a lively ram at once.</summary>
    /// <param name="site">The planned site.</param>
    /// <returns>The spans of both; null where one of them doesn't beat.</returns>
    public static VirtualTrial? Run(RamSite site)
    {
        var runs = new Outcome?[Characters.Length];
        Parallel.For(0, runs.Length, i => runs[i] = Run(site, Characters[i]));
        if (runs.Any(r => r is null))
        {
            return null;
        }

        Band Of(Func<Outcome, double> figure) => new(runs.Min(r => figure(r!)), runs.Max(r => figure(r!)));
        return new VirtualTrial(
            Of(r => r.BeatsPerMin), Of(r => r.PeakPa), Of(r => r.DrawnM3PerS), Of(r => r.PerBeatM3), Of(r => r.ClosingMPerS), Of(r => r.Efficiency));
    }

    private static Outcome? Run(RamSite site, RamCharacter character)
    {
        RamParameters ram = RamDesigner.Design(site, character).Ram with { LongestStepS = StepS, MostReaches = Reaches };
        var sensor = new SensorParameters { RangeLowPa = -1e5, RangeHighPa = 1e8, RateHz = 500 };
        var simulation = new RamSimulation(ram, sensor, new SimulationOptions { WarmUpS = WarmUpS });
        double peak = 0, closing = 0;
        int beats = 0;
        simulation.BeatEnded += beat =>
        {
            beats++;
            peak = Math.Max(peak, beat.PeakPa);
            closing = Math.Max(closing, beat.ClosingVelocityMPerS);
        };
        for (int samples = 0; beats < Beats && samples < LongestS * sensor.RateHz; samples++)
        {
            simulation.Next();
        }

        RamTotals totals = simulation.Totals;
        return beats < 2 || totals.DeliveredM3 <= 0
            ? null
            : new Outcome(
                totals.BeatsPerMin!.Value, peak, totals.DrawnM3 / totals.DurationS, totals.DeliveredM3 / totals.Beats, closing, totals.DAubuisson!.Value);
    }

    private sealed record Outcome(double BeatsPerMin, double PeakPa, double DrawnM3PerS, double PerBeatM3, double ClosingMPerS, double Efficiency);
}
