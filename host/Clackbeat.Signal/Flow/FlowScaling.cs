using System.Globalization;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;

namespace Clackbeat.Signal.Flow;

/// <summary>What bucket tests of another time may do to the flows of a record, and what is told of them.</summary>
internal static class FlowScaling
{
    /// <summary>The scale that holds for a record; null where there is none, or it holds no longer, which is told.</summary>
    /// <param name="site">The ram.</param>
    /// <param name="findings">Takes what is to be told.</param>
    public static FlowScale? Usable(RamSite site, List<Fact> findings)
    {
        if (site.FlowScale is not { } scale || site.BucketTests.Any(t => t.OfThisRecord))
        {
            return null;
        }

        string date = Day(scale.Date);
        bool changed = scale.Setup is { } setup && setup != FlowScale.SetupOf(site);
        findings.Add(changed ? Fact.Of("flow-scale-dropped-setup", ("date", date))
            : scale.IsMarkedSince ? Fact.Of("flow-scale-dropped-mark", ("date", date))
            : Fact.Of("flow-scale-used", ("date", date)));
        return changed || scale.IsMarkedSince ? null : scale;
    }

    /// <summary>
    /// A flow and its standard uncertainty under a scale. What the record's own fit leaves open stays; what is the same in every
    /// record of the setting (bore, length, the model's own error) is in the scale already.
    /// </summary>
    /// <param name="flow">Flow and standard uncertainty without it.</param>
    /// <param name="fitted">The part of that uncertainty which the record's own fit leaves open.</param>
    /// <param name="scale">The scale; null leaves the flow as it is.</param>
    /// <param name="expanded">Expanded uncertainty of the scale (k = 2), as a share.</param>
    public static Estimate Scaled(Estimate flow, double fitted, double? scale, double expanded) =>
        scale is { } by
            ? new Estimate(flow.Value * by, by * StandardUncertainty.Combine(fitted, 0.5 * expanded * flow.Value))
            : flow;

    /// <summary>The scale that bucket tests of this record found.</summary>
    public static Fact Made(
        RamSite site, Estimate delivered, double deliveredBefore, Estimate waste, double wasteBefore) =>
        Fact.Of(
            "flow-scale-made",
            ("delivered_share", delivered.Value / deliveredBefore), ("delivered_u_share", 2 * delivered.Uncertainty / delivered.Value),
            ("waste_share", waste.Value / wasteBefore), ("waste_u_share", 2 * waste.Uncertainty / waste.Value),
            ("setup", FlowScale.SetupOf(site)));

    /// <summary>A test of another time beside the record's flow.</summary>
    public static Fact Compared(BucketTest test, Estimate flow)
    {
        FactValue date = ("date", Day(test.Date));
        FactValue bucket = ("bucket_l_per_min", test.FlowM3PerS * 6e4);
        FactValue bucketU = ("bucket_u_l_per_min", 2 * BucketCalibration.UncertaintyOf(test) * 6e4);
        FactValue pressure = ("pressure_l_per_min", flow.Value * 6e4);
        FactValue u = ("u_l_per_min", 2 * flow.Uncertainty * 6e4);
        return test.Outlet == BucketOutlet.Delivery
            ? Fact.Of("bucket-compared-delivery", date, bucket, bucketU, pressure, u)
            : Fact.Of("bucket-compared-waste", date, bucket, bucketU, pressure, u);
    }

    private static string Day(DateOnly? date) => date?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? "no date given";
}
