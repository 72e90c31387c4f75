using Clackbeat.Protocol.Messages;
using Clackbeat.Recording.Capture;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Link;
using Clackbeat.Site;
using Clackbeat.Unattended.Raw;
using Clackbeat.Unattended.Settings;
using Clackbeat.Unattended.Surroundings;
using Clackbeat.Words;

namespace Clackbeat.Unattended.Live;

/// <summary>What came of a burst.</summary>
/// <param name="Taken">A recording with samples is on the disk.</param>
/// <param name="Problem">What stood in the way or was lost, in words; null for nothing.</param>
/// <param name="IsDiskFault">It was the disk.</param>
/// <param name="Path">Its file, where one was taken.</param>
internal readonly record struct BurstTaken(bool Taken, string? Problem, bool IsDiskFault, string Path = "");

/// <summary>Records one burst of a ram.</summary>
internal sealed class BurstTaker(RamSettings ram, RawFolder raw, LogWorld world)
{
    /// <summary>What a start asks of the logger: the site file's rate, or the logger's own.</summary>
    public static StartCommand StartOf(RamSettings ram) =>
        new() { PeriodMicroseconds = ram.Site.Logger.SamplingRateHz is { } hz ? (uint)Math.Round(1e6 / hz) : 0 };

    /// <summary>Records.</summary>
    /// <param name="port">Where the logger is.</param>
    /// <param name="logger">Which logger it must be.</param>
    /// <param name="length">How long.</param>
    /// <param name="extra">It follows from a change, not from the schedule.</param>
    /// <param name="documents">Texts that travel along.</param>
    /// <param name="alive">Called often.</param>
    /// <param name="stop">Ends the burst early; what was recorded is kept.</param>
    public BurstTaken Take(
        string port, string logger, TimeSpan length, bool extra, IReadOnlyList<RecordingDocument> documents, Action<RecorderProgress> alive, CancellationToken stop)
    {
        string part = raw.Begin(world.Time.GetUtcNow(), extra);
        RecorderSummary? summary = null;
        try
        {
            using var writer = new RecordingWriter(DiskStore.Create(part), world.Time);
            var recorder = new Recorder(
                world.Line(port, ram.Baud),
                new RecorderOptions { Start = StartOf(ram), Length = length, Documents = documents, Program = world.Program },
                writer,
                world.Time)
            {
                Progress = alive,
            };
            summary = recorder.Run(stop);
        }
        catch (Exception fault) when (fault is LineException or InputException or OperationCanceledException)
        {
            return Drop(part, fault is OperationCanceledException ? null : fault.Message, isDiskFault: false);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            return Drop(part, WordsOf(fault.Message, part), isDiskFault: true);
        }

        if (summary.Device != logger || summary.Samples == 0)
        {
            string words = summary.DiskFault ?? (summary.Samples == 0
                ? Phrases.Say("unattended.no-sample")
                : Phrases.Say("unattended.logger-swapped", ("new", summary.Device), ("old", logger)));
            return Drop(part, words, summary.DiskFault is not null);
        }

        return Keep(part, summary.DiskFault);
    }

    private BurstTaken Keep(string part, string? diskFault)
    {
        try
        {
            return new BurstTaken(true, diskFault is null ? null : WordsOf(diskFault, part), diskFault is not null, raw.Finish(part));
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            // It stays under its unfinished name and is taken up once the disk is well.
            return new BurstTaken(false, WordsOf(diskFault ?? fault.Message, part), true);
        }
    }

    // The folder, not the file: a disk that stays full is told of once, not for every burst anew.
    private static string WordsOf(string fault, string part) => fault.Replace(part, Path.GetDirectoryName(part), StringComparison.Ordinal);

    private static BurstTaken Drop(string part, string? problem, bool isDiskFault)
    {
        try
        {
            File.Delete(part);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            // It stays as a remnant that is cleared up once the disk is well.
        }

        return new BurstTaken(false, problem, isDiskFault);
    }
}
