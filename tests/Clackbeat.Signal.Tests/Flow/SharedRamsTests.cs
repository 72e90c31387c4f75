using Clackbeat.Records.Sharing;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Figures;
using Clackbeat.Signal.Flow;
using Clackbeat.Site.Model;

namespace Clackbeat.Signal.Tests.Flow;

/// <summary>
/// The rams in tests/SharedRams. A real ram may stand there however far its flow is off: the page publishes it. Of a virtual ram the
/// buckets are known to be right, so the estimate without them must agree.
/// </summary>
public class SharedRamsTests
{
    private static readonly string Root = Find(AppContext.BaseDirectory);

    public static TheoryData<string> Archives =>
        [.. Directory.EnumerateFiles(Path.Combine(Root, "tests", "SharedRams"), "*.zip").Select(p => Path.GetFileName(p)).Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(Archives))]
    public void Every_archive_may_be_published_and_stands_on_the_page(string name)
    {
        SharedRecord record = Open(name);
        Assert.NotEmpty(record.Manifest.BucketTests);
        Assert.False(string.IsNullOrWhiteSpace(record.Manifest.Licence), "An archive without a licence may not lie in the repository.");
        Assert.Contains($"| {name} |", File.ReadAllText(Path.Combine(Root, "docs", "published-rams.md")), StringComparison.Ordinal);
        RamAnalysis found = RecordAnalysis.Of(record, record.Site);
        Assert.True(found.Flow.DeliveredM3PerS is not null || found.WhyNoFlow is not null);
    }

    [Theory]
    [MemberData(nameof(Archives))]
    public void A_made_up_rams_flow_from_the_pressure_alone_agrees_with_its_buckets(string name)
    {
        if (!name.StartsWith("made-up-", StringComparison.Ordinal))
        {
            return;
        }

        SharedRecord record = Open(name);
        RamAnalysis found = RecordAnalysis.Of(record, record.Site);
        foreach (BucketTest bucket in record.Manifest.BucketTests)
        {
            Figure flow = (bucket.Outlet == BucketOutlet.Delivery ? found.Flow.DeliveredM3PerS : found.Flow.WasteM3PerS)!.Value;
            double bucketU = 2 * BucketCalibration.UncertaintyOf(bucket);
            Assert.True(
                Math.Abs(flow.Value - bucket.FlowM3PerS) <= Math.Sqrt((flow.U * flow.U) + (bucketU * bucketU)),
                $"{bucket.Outlet}: {flow.Value * 6e4:0.00} ± {flow.U * 6e4:0.00} L/min by the pressure, {bucket.FlowM3PerS * 6e4:0.00} ± {bucketU * 6e4:0.00} by the bucket");
        }
    }

    private static SharedRecord Open(string name) => SharedRecord.Open(Path.Combine(Root, "tests", "SharedRams", name));

    private static string Find(string folder) => File.Exists(Path.Combine(folder, "Clackbeat.slnx"))
        ? folder
        : Find(Path.GetDirectoryName(Path.TrimEndingDirectorySeparator(folder))!);
}
