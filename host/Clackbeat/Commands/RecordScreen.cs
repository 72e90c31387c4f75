using System.Globalization;
using Clackbeat.Frame;
using Clackbeat.Recording.Capture;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Reading;

namespace Clackbeat.Commands;

/// <summary>What a person sees of a recording: each change of state as a line, and on a terminal a line that counts.</summary>
internal sealed class RecordScreen(Session session, string path)
{
    private int _shown;

    /// <summary>Says a change of state.</summary>
    public void Tell(RecorderNews news)
    {
        Clear();
        session.Say(news.Words);
    }

    /// <summary>Shows how far it is, on a terminal only.</summary>
    public void Show(RecorderProgress progress)
    {
        if (!session.ErrorIsTerminal)
        {
            return;
        }

        var time = TimeSpan.FromSeconds(progress.RecordedS);
        var words = string.Create(
            CultureInfo.InvariantCulture,
            $"{Word(progress.State)} {(int)time.TotalHours:00}:{time.Minutes:00}:{time.Seconds:00}  {progress.Samples} samples, {progress.LostSamples} lost, {progress.DurableBytes / 1024} KiB on the disk. Ctrl-C ends it.");
        session.Error.Write($"\r{words.PadRight(_shown)}");
        _shown = words.Length;
    }

    /// <summary>Wipes the counting line.</summary>
    public void Clear()
    {
        if (_shown > 0)
        {
            session.Error.Write($"\r{new string(' ', _shown)}\r");
            _shown = 0;
        }
    }

    /// <summary>Sums up; the exit code follows from it.</summary>
    public int Close(RecorderSummary summary)
    {
        Clear();
        Layout.Pairs(session, Rows(summary));
        if (summary.DiskFault is { } fault)
        {
            session.Warn($"the disk failed: {fault.TrimEnd('.')}. What had been recorded until then is in {path}; free some space and go on with --append.");
        }

        session.Say($"Wrote {path}. To see what it tells: clackbeat analyse {path} --site SITE");
        return summary.IsWhole ? ExitCode.Done : ExitCode.DonePartly;
    }

    private static IEnumerable<(string Name, string Value)> Rows(RecorderSummary summary)
    {
        yield return ("Logger", summary.Device);
        yield return ("Recorded", Text($"{summary.RecordedS:0.0} s, {summary.Samples} samples"));
        yield return ("Ended", Reason(summary.Reason));
        if (summary.Clock is { RatePpm: { } rate, RateUncertaintyPpm: { } u })
        {
            yield return ("Logger's clock", Text($"{Math.Abs(rate):0} ± {u:0} parts per million {(rate < 0 ? "slow" : "fast")} against this computer's"));
        }

        if (summary.Losses.Count == 0)
        {
            yield return ("Lost", "nothing");
        }

        foreach (var (cause, total) in summary.Losses)
        {
            var bytes = total.Bytes > 0 ? Text($", {total.Bytes} bytes thrown away") : "";
            yield return ("Lost", RecordingWords.Of(cause, total.Records, total.Samples, total.LengthS) + bytes);
        }
    }

    private static string Reason(EndReason reason) => reason switch
    {
        EndReason.TimeUp => "the time was up",
        EndReason.Disk => "the disk failed",
        _ => "you stopped it",
    };

    private static string Word(RecorderState state) => state switch
    {
        RecorderState.Recording => "Recording",
        RecorderState.Silent => "Silent   ",
        _ => "Waiting  ",
    };

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
