using Clackbeat.Recording.Files;
using Clackbeat.Site.Facts;

namespace Clackbeat.Recording.Reading;

/// <summary>What a recording lacks.</summary>
public static class RecordingFacts
{
    /// <summary>One fact a loss; none for a recording that is all there.</summary>
    public static IReadOnlyList<Fact> Of(RecordingScan scan) => [.. Damage(scan), .. Losses(scan), .. Clock(scan)];

    /// <summary>All losses of one cause.</summary>
    public static Fact Of(LossCause cause, long times, long samples, double lengthS) =>
        Fact.Of("recording-loss", ("cause", Of(cause)), ("times", times), ("samples", samples), ("length_s", lengthS));

    /// <summary>A cause.</summary>
    public static Fact Of(LossCause cause) => cause switch
    {
        LossCause.LinkCut => Fact.Of("loss.link-cut"),
        LossCause.Restart => Fact.Of("loss.restart"),
        LossCause.Overrun => Fact.Of("loss.overrun"),
        LossCause.Noise => Fact.Of("loss.noise"),
        LossCause.SlowHost => Fact.Of("loss.slow-host"),
        LossCause.Disk => Fact.Of("loss.disk"),
        LossCause.WrongDevice => Fact.Of("loss.wrong-device"),
        LossCause.Silence => Fact.Of("loss.silence"),
        LossCause.LoggerBusy => Fact.Of("loss.logger-busy"),
        LossCause.Converter => Fact.Of("loss.converter"),
        _ => Fact.Of("loss.unknown"),
    };

    private static IEnumerable<Fact> Damage(RecordingScan scan)
    {
        if (scan.Completeness == Completeness.Damaged)
        {
            yield return scan.SavedSamples > 0
                ? Fact.Of("recording-damaged-saved", ("bytes", scan.DamagedBytes), ("blocks", scan.MissingBlocks), ("samples", scan.SavedSamples))
                : Fact.Of("recording-damaged", ("bytes", scan.DamagedBytes), ("blocks", scan.MissingBlocks));
        }

        if (scan.Sessions.Any(s => s.End is null))
        {
            yield return Fact.Of("recording-without-end");
        }
    }

    private static IEnumerable<Fact> Losses(RecordingScan scan) => scan.Sessions
        .SelectMany(s => s.Losses.Select(l => (Loss: l, MissingS: l.MissingS(s.Header?.PeriodMicroseconds ?? 0))))
        .GroupBy(l => l.Loss.Cause)
        .Select(cause => Of(cause.Key, cause.Count(), cause.Sum(l => Math.Max(0, l.Loss.Samples)), cause.Sum(l => l.MissingS)));

    private static IEnumerable<Fact> Clock(RecordingScan scan)
    {
        foreach (Time.ClockStep step in scan.Sessions.SelectMany(s => s.Calendar.Steps).Take(3))
        {
            (double stepS, double elapsedS) = (Math.Abs(step.StepMicroseconds) / 1e6, step.ElapsedMicroseconds / 1e6);
            yield return step.StepMicroseconds > 0
                ? Fact.Of("clock-set-forward", ("step_s", stepS), ("elapsed_s", elapsedS))
                : Fact.Of("clock-set-back", ("step_s", stepS), ("elapsed_s", elapsedS));
        }
    }
}
