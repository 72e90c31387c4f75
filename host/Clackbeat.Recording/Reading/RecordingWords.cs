using System.Globalization;
using Clackbeat.Recording.Files;

namespace Clackbeat.Recording.Reading;

/// <summary>Says in sentences what a recording lacks.</summary>
public static class RecordingWords
{
    /// <summary>One sentence a loss; none for a recording that is all there.</summary>
    public static IReadOnlyList<string> Of(RecordingScan scan)
    {
        List<string> words = [];
        if (scan.Completeness == Completeness.Damaged)
        {
            words.Add(Text($"the file is damaged: {scan.DamagedBytes} bytes in it are no good block, {scan.MissingBlocks} blocks are missing or spoilt")
                + (scan.SavedSamples > 0 ? Text($"; {scan.SavedSamples} samples of spoilt blocks were good and are kept") : ""));
        }

        int open = scan.Sessions.Count(s => s.End is null);
        if (open > 0)
        {
            words.Add(Text($"the recording has no end: its recorder was stopped hard, or still runs; at most the last second is missing"));
        }

        foreach (IGrouping<LossCause, LossRecord> cause in scan.Sessions.SelectMany(s => s.Losses).GroupBy(l => l.Cause))
        {
            words.Add(Of(cause.Key, cause.Count(), cause.Sum(l => Math.Max(0, l.Samples)), cause.Sum(l => l.LengthS ?? 0)));
        }

        ClockWords(scan, words);
        return words;
    }

    /// <summary>All losses of one cause in a sentence.</summary>
    public static string Of(LossCause cause, long times, long samples, double lengthS) => Text(
        $"{Of(cause)}: {times} {(times == 1 ? "time" : "times")}, {samples} samples, {lengthS:0.###} s");

    /// <summary>A cause in words.</summary>
    public static string Of(LossCause cause) => cause switch
    {
        LossCause.LinkCut => "the link was cut",
        LossCause.Restart => "the logger started anew",
        LossCause.Overrun => "the logger came late",
        LossCause.Noise => "frames were damaged on the line",
        LossCause.SlowHost => "this computer was too slow",
        LossCause.Disk => "the disk did not take the data",
        LossCause.WrongDevice => "something else was on the port",
        LossCause.Silence => "the logger was silent",
        LossCause.LoggerBusy => "the logger's line or card was busy",
        LossCause.Converter => "the converter gave no reading",
        _ => "unknown cause",
    };

    private static void ClockWords(RecordingScan scan, List<string> words)
    {
        foreach (Time.ClockStep step in scan.Sessions.SelectMany(s => s.Calendar.Steps).Take(3))
        {
            words.Add(Text(
                $"this computer's clock was set {Math.Abs(step.StepMicroseconds) / 1e6:0.0} s {(step.StepMicroseconds > 0 ? "forward" : "back")} {step.ElapsedMicroseconds / 1e6:0} s into the recording; calendar times follow its last setting"));
        }
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
