using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Figures;
using Clackbeat.Signal.Flow;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;

namespace Clackbeat.Signal.HandTests;

/// <summary>
/// A bucket at the outlet against the flow through the delivery valve that its record tells: what is missing leaves the main on its way,
/// or runs back through the delivery valve, which the flow counts as delivered.
/// </summary>
public static class BucketReading
{
    /// <summary>Reads the test.</summary>
    /// <param name="record">The record made meanwhile, read without the bucket.</param>
    /// <param name="bucket">The bucket at the outlet.</param>
    public static TestResult Read(RamAnalysis record, BucketTest bucket)
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(bucket);
        if (bucket.Outlet != BucketOutlet.Delivery)
        {
            return new TestResult(TestVerdict.Unclear, [Fact.Of("check-bucket-outlet")]);
        }

        if (record.Flow.DeliveredM3PerS is not { } flow)
        {
            return new TestResult(TestVerdict.Unclear, [Fact.Of("check-bucket-no-flow")]);
        }

        double u = 2 * BucketCalibration.UncertaintyOf(bucket);
        return new TestResult(Judge(flow.Value, flow.U, bucket.FlowM3PerS, u), [Seen(bucket, u, flow)]);
    }

    /// <summary>Holds two flows against each other, each with its expanded uncertainty.</summary>
    internal static TestVerdict Judge(double record, double recordU, double bucket, double bucketU)
    {
        double missing = record - bucket;
        double both = Math.Sqrt((bucketU * bucketU) + (recordU * recordU));
        return missing > both ? TestVerdict.LessArrives : missing < -both ? TestVerdict.MoreArrives : TestVerdict.AllArrives;
    }

    private static Fact Seen(BucketTest bucket, double u, Figure flow) => Fact.Of(
        "check-bucket",
        ("bucket_l_per_min", bucket.FlowM3PerS * 60_000), ("bucket_u_l_per_min", u * 60_000),
        ("record_l_per_min", flow.Value * 60_000), ("record_u_l_per_min", flow.U * 60_000));
}
