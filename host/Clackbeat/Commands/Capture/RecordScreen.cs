using System.Globalization;
using Clackbeat.Frame;
using Clackbeat.Recording.Capture;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Reading;
using Clackbeat.Site.Facts;
using Clackbeat.Words;

namespace Clackbeat.Commands.Capture;

/// <summary>What a person sees of a recording: each change of state as a line, and on a terminal a line that counts.</summary>
internal sealed class RecordScreen(Session session, string path)
{
    // Crystals are within a hundred parts per million; a rate that is less well known says nothing of one.
    private const double LeastTellingPpm = 100;

    private int _shown;

    /// <summary>Says a change of state.</summary>
    public void Tell(RecorderNews news)
    {
        Clear();
        session.Say(Catalogue.Current.Say(news.What));
    }

    /// <summary>Shows how far it is, on a terminal only.</summary>
    public void Show(RecorderProgress progress)
    {
        if (!session.ErrorIsTerminal)
        {
            return;
        }

        var time = TimeSpan.FromSeconds(progress.RecordedS);
        string words = Phrases.Say("record.progress", ("state", Word(progress.State)), ("time", string.Create(CultureInfo.InvariantCulture, $"{(int)time.TotalHours:00}:{time.Minutes:00}:{time.Seconds:00}")), ("samples", progress.Samples), ("lost", progress.LostSamples), ("disk_kib", progress.DurableBytes / 1024));
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
            session.Warn(Phrases.Say("record.disk-failed-at", ("why", fault.TrimEnd('.')), ("file", path)));
        }

        session.Say(Phrases.Say("record.wrote", ("file", path)));
        return summary.IsWhole ? ExitCode.Done : ExitCode.DonePartly;
    }

    private static IEnumerable<(string Name, string Value)> Rows(RecorderSummary summary)
    {
        yield return (Phrases.Say("record.logger"), summary.Device);
        yield return (Phrases.Say("record.recorded"), Phrases.Say("record.recorded-is", ("length_s", summary.RecordedS), ("samples", summary.Samples)));
        yield return (Phrases.Say("record.ended"), Reason(summary.Reason));
        if (summary.Clock is { RatePpm: { } rate, RateUncertaintyPpm: { } u } && u < LeastTellingPpm)
        {
            yield return (Phrases.Say("record.clock"), rate < 0
                ? Phrases.Say("record.clock-slow", ("rate_ppm", -rate), ("u_ppm", u))
                : Phrases.Say("record.clock-fast", ("rate_ppm", rate), ("u_ppm", u)));
        }

        yield return (Phrases.Say("record.board"), summary.Bench is { } bench
            ? Phrases.Say("record.board-is", ("told_us", BenchCommand.TimeUncertaintyUs(bench)), ("worst_us", bench.WorstTurnMicroseconds), ("period_us", bench.PeriodMicroseconds))
            : Phrases.Say("record.board-unmeasured"));
        if (summary.Losses.Count == 0)
        {
            yield return (Phrases.Say("record.lost"), Phrases.Say("record.lost-nothing"));
        }

        foreach ((LossCause cause, LossTotal total) in summary.Losses)
        {
            Fact loss = RecordingFacts.Of(cause, total.Records, total.Samples, total.LengthS);
            yield return (Phrases.Say("record.lost"), total.Bytes > 0
                ? Phrases.Say("record.lost-bytes", ("loss", loss), ("bytes", total.Bytes))
                : Catalogue.Current.Say(loss));
        }
    }

    private static string Reason(EndReason reason) => reason switch
    {
        EndReason.TimeUp => Phrases.Say("record.time-up"),
        EndReason.Disk => Phrases.Say("record.disk-failed"),
        _ => Phrases.Say("record.stopped"),
    };

    private static string Word(RecorderState state) => state switch
    {
        RecorderState.Recording => Phrases.Say("record.recording"),
        RecorderState.Silent => Phrases.Say("record.silent"),
        _ => Phrases.Say("record.waiting"),
    };
}
