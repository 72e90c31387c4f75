using Clackbeat.Frame;
using Clackbeat.Site;
using Clackbeat.Site.Quantities;
using Clackbeat.Tuning.Trials;
using Clackbeat.Words;

namespace Clackbeat.Commands.Tune;

/// <summary>What is said of a recording that may not be a trial of the session.</summary>
internal static class TuneDoubts
{
    /// <summary>Refuses the recording, or warns where the keeper insists.</summary>
    public static void Heed(
        Session session, string recording, TuningSession tuning, IReadOnlyList<TrialDoubt> doubts, bool isSameRam, Units units)
    {
        if (doubts.Count == 0)
        {
            return;
        }

        string said = string.Join(" ", doubts.Select(d => Capital(Of(d, tuning, units))));
        if (doubts.Any(d => d.IsFinal))
        {
            throw InputException.Of("option.wrong", ("option", recording), ("why", said));
        }

        if (!isSameRam)
        {
            throw InputException.Of("tune.looks-like-recording-another-ram", ("recording", recording), ("said", said));
        }

        session.Warn(Phrases.Say("tune.taken-all-same", ("recording", recording), ("said", said)));
    }

    private static string Capital(string said) => char.ToUpperInvariant(said[0]) + said[1..];

    private static string Of(TrialDoubt doubt, TuningSession tuning, Units units)
    {
        string Pressure(double pa) => Phrases.Format(QuantityKind.Pressure, pa, units);
        string Speed(double speed) => Phrases.Format(QuantityKind.Velocity, speed, units);
        string trial = Phrases.Say("tune.trial-2", ("trial", (doubt.Trial ?? -1) + 1));
        return doubt.Kind switch
        {
            TrialDoubtKind.SameRecording => Phrases.Say("tune.recording-part-record-each-setting", ("trial", trial), ("setting", tuning.Knob.Text(tuning.Trials[doubt.Trial!.Value].Setting)), ("number", doubt.Trial.Value + 1)),
            TrialDoubtKind.OtherName => Phrases.Say("tune.recorded-site-file-session-about", ("name", doubt.Name ?? ""), ("ram", tuning.Ram)),
            TrialDoubtKind.OtherPlateau => Phrases.Say("tune.ram-delivers-against-against-waste", ("found", Pressure(doubt.Found)), ("known", Pressure(doubt.Known)), ("trial", trial)),
            TrialDoubtKind.OtherWaveSpeed => Phrases.Say("tune.wave-speed-another-pipe-air", ("found", Speed(doubt.Found)), ("known", Speed(doubt.Known)), ("trial", trial)),
            TrialDoubtKind.UnlikePipe => Phrases.Say("tune.beats-dont-follow-site-files", ("trial", trial)),
            TrialDoubtKind.BelowLift => Phrases.Say("tune.ram-delivers-against-less-than", ("found", Pressure(doubt.Found)), ("known", Pressure(doubt.Known))),
            TrialDoubtKind.FarAboveLift => Phrases.Say("tune.ram-delivers-against-more-than", ("found", Pressure(doubt.Found)), ("known", Pressure(doubt.Known))),
            TrialDoubtKind.FasterThanPipe => Phrases.Say("tune.wave-speed-site-files-pipe", ("found", Speed(doubt.Found)), ("known", Speed(doubt.Known))),
            _ => Phrases.Say("tune.wave-speed-site-files-pipe-2", ("found", Speed(doubt.Found)), ("known", Speed(doubt.Known))),
        };
    }
}
