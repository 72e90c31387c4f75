using Clackbeat.Recording.Files;
using Clackbeat.Recording.Reading;
using Clackbeat.Records.Export;
using Clackbeat.Records.Samples;
using Clackbeat.Site;
using Clackbeat.Site.Calibrations;
using Clackbeat.Site.Files;

namespace Clackbeat.Fuzz;

/// <summary>A recording through all that reads one: both passes, its words, its texts, an export.</summary>
internal static class RecordingTarget
{
    public static void Run(byte[] input)
    {
        byte[] file = input.Length > 0 && (input[0] & 1) == 0 ? input[1..] : Mended.Recording(input.AsSpan(Math.Min(1, input.Length)));
        MemoryStream Open() => new(file, writable: false);
        try
        {
            BlockReader.IsRecording(Open());
            var scan = RecordingScan.Of(Open, "any.cbrec");
            RecordingFacts.Of(scan);
            _ = (scan.Completeness, scan.MissingSamples, scan.SavedSamples);
            Export(scan);
            foreach (RecordingDocument document in scan.Sessions.SelectMany(s => s.Documents))
            {
                ReadText(document);
            }
        }
        catch (InputException)
        {
            // A file that is refused in words.
        }
    }

    private static void Export(RecordingScan scan)
    {
        using CsvExport export = new(Stream.Null, new SampleColumns(Utc: true, Counts: true, Supply: true, Delivery: true));
        long samples = 0;
        SamplePass.Read(scan, batch =>
        {
            samples += batch.Length;
            foreach (RecordedSample s in batch)
            {
                export.Add(new Sample(s.TimeS, s.Counts, s.UtcMicroseconds, s.Counts, s.SupplyCounts, s.DeliveryCounts), null);
            }
        });
        export.Finish();
        BrokenPromiseException.Unless(samples == scan.Samples, "the two passes over a recording differ");
    }

    private static void ReadText(RecordingDocument document)
    {
        try
        {
            if (document.Role == DocumentRole.Site)
            {
                SiteFile.ReadText(document.Text, document.Name);
            }
            else if (document.Role == DocumentRole.Calibration)
            {
                CalibrationFile.Parse(document.Text, document.Name);
            }
        }
        catch (InputException)
        {
            // A text that is refused in words.
        }
    }
}
