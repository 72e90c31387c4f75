using Clackbeat.Twin.Model;

namespace Clackbeat.Twin.Changes;

/// <summary>Figures after a change over those before; also used for their spreads.</summary>
/// <param name="Rate">Beats a minute.</param>
/// <param name="Delivered">Delivered flow.</param>
/// <param name="Waste">Waste flow.</param>
/// <param name="Peak">Peak.</param>
public readonly record struct Ratios(double Rate, double Delivered, double Waste, double Peak)
{
    private const double Least = 1e-3;

    internal static Ratios Of(Cycle before, Cycle after)
    {
        double rate = before.IntervalS / after.IntervalS;
        return new Ratios(
            rate,
            Math.Max(Least, rate * after.DeliveredM3 / Math.Max(1e-9, before.DeliveredM3)),
            Math.Max(Least, rate * after.WasteM3 / Math.Max(1e-9, before.WasteM3)),
            after.PeakM / before.PeakM);
    }

    internal Ratios Each(Func<double, double> change) => new(change(Rate), change(Delivered), change(Waste), change(Peak));

    internal Ratios With(Ratios b, Func<double, double, double, double> join, Ratios c) => new(
        join(Rate, b.Rate, c.Rate), join(Delivered, b.Delivered, c.Delivered), join(Waste, b.Waste, c.Waste), join(Peak, b.Peak, c.Peak));
}
