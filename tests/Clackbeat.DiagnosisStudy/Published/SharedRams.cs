using System.Globalization;
using Clackbeat.Records.Sharing;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Figures;
using Clackbeat.Signal.Flow;
using Clackbeat.Site.Model;

namespace Clackbeat.DiagnosisStudy.Published;

/// <summary>The archives in tests/SharedRams: the flow from the pressure alone, beside the bucket that its owner filled.</summary>
internal static class SharedRams
{
    public static IEnumerable<string> Rows(string folder)
    {
        foreach (string path in Directory.EnumerateFiles(folder, "*.zip").Order(StringComparer.Ordinal))
        {
            var record = SharedRecord.Open(path);
            RamAnalysis found = RecordAnalysis.Of(record, record.Site);
            foreach (BucketTest bucket in record.Manifest.BucketTests)
            {
                bool delivery = bucket.Outlet == BucketOutlet.Delivery;
                Figure? flow = delivery ? found.Flow.DeliveredM3PerS : found.Flow.WasteM3PerS;
                yield return string.Create(
                    CultureInfo.InvariantCulture,
                    $"| {Path.GetFileName(path)} | {(delivery ? "delivered" : "to waste")} | {Text(flow)} | {bucket.FlowM3PerS * 6e4:0.00} ± {2 * BucketCalibration.UncertaintyOf(bucket) * 6e4:0.00} | {(flow is { } f ? $"{100 * ((f.Value / bucket.FlowM3PerS) - 1):+0.0;−0.0} %" : "—")} | {record.Manifest.Licence ?? "none"} |");
            }
        }
    }

    private static string Text(Figure? flow) =>
        flow is { } f ? string.Create(CultureInfo.InvariantCulture, $"{(f.IsUpperBound ? "at most " : "")}{f.Value * 6e4:0.00} ± {f.U * 6e4:0.00}") : "withheld";
}
