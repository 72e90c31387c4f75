using Clackbeat.Commands.Analyse;
using Clackbeat.Frame;
using Clackbeat.Records.Sources;
using Clackbeat.Season.Store;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.States;
using Clackbeat.Site;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;
using Clackbeat.Words;

namespace Clackbeat.Commands.Log;

/// <summary>
/// Files into the season store, on all cores: several files at once, or the bursts of one. A file that can't be used is told and
/// passed over where there are others.
/// </summary>
internal sealed class SeasonIngest(Session session, ISeasonStore store, RamSite site, RecordReading reading, DateTimeOffset? start, TwinOfDay? twins)
{
    /// <summary>A file as an input.</summary>
    public SeasonInput Of(string file) => new(file, shown => RecordFile.Open(shown, file, reading, site));

    /// <summary>Takes the inputs, in their order as far as anybody can see.</summary>
    /// <param name="files">The inputs.</param>
    /// <returns>The exit code.</returns>
    public int Run(IReadOnlyList<SeasonInput> files)
    {
        if (files.Count == 1)
        {
            return Tell(Take(session, files[0], Environment.ProcessorCount));
        }

        // Bars of several files at once would get in each other's way.
        var quiet = Session.OnStreams(session.Out, session.Error, session.Stop);
        int done = 0;
        List<Outcome> outcomes = session.WithProgress(Phrases.Say("logging.files", ("files", files.Count)), progress => files
            .AsParallel().AsOrdered().WithDegreeOfParallelism(Environment.ProcessorCount).WithMergeOptions(ParallelMergeOptions.NotBuffered)
            .Select(file => TakeOrTell(quiet, file)).AsEnumerable()
            .Select(outcome =>
            {
                progress.Report(++done / (double)files.Count);
                return outcome;
            }).ToList());
        int[] codes = [.. outcomes.Select(Tell)];
        return codes.All(c => c == ExitCode.WrongInput) ? ExitCode.WrongInput : codes.Any(c => c != ExitCode.Done) ? ExitCode.DonePartly : ExitCode.Done;
    }

    /// <summary>Takes one input, whatever is wrong with it.</summary>
    /// <param name="input">The input.</param>
    /// <returns>Why it can't be used; null where it was taken.</returns>
    public string? TakeOne(SeasonInput input)
    {
        Outcome outcome = TakeOrTell(Session.OnStreams(session.Out, session.Error, session.Stop), input);
        Tell(outcome);
        return outcome.Refusal;
    }

    // A mark after the bucket test tells that somebody was at the ram: the test's scale holds no longer.
    private RamSite SinceMarks() => site.FlowScale is { } scale
        ? site with { FlowScale = scale.After(store.Marks(site.Name).Select(m => DateOnly.FromDateTime(m.AtUtc.LocalDateTime))) }
        : site;

    private Outcome TakeOrTell(Session quiet, SeasonInput input)
    {
        try
        {
            return Take(quiet, input, workers: 1);
        }
        catch (Exception failure) when (failure is InputException or FileNotFoundException or DirectoryNotFoundException)
        {
            return new Outcome(input.Name, 0, 0, 0, null, null, failure is InputException ? failure.Message : Phrases.Say("input.no-such-path", ("file", input.Name)));
        }
    }

    private Outcome Take(Session shown, SeasonInput input, int workers)
    {
        string file = input.Name;
        RamSite ram = SinceMarks();
        ISampleSource source = input.Open(shown);
        var intake = new BurstIntake(store, workers);
        IntakeOutcome outcome = shown.WithProgress(Phrases.Say("logging.file", ("file", Path.GetFileName(file))), progress =>
        {
            RecordStart? told = start is { } utc ? new RecordStart(utc, null) : null;
            IntakeOutcome read = RecordIntake.Read(
                source, ram, hash => intake.Knows(ram.Name, hash), intake.Take, told, analysis => Refuse(file, analysis), twins?.More, progress, session.Stop);
            intake.Finish();
            return read;
        });
        if (intake.Added + intake.Known == 0 && outcome.TooShort > 0)
        {
            throw InputException.Of("logging.under-a-second", ("file", file));
        }

        return new Outcome(file, intake.Added, intake.Known, outcome.TooShort, outcome.IsPartial ? outcome.Faults.Lacks : null, start is null ? source.StartRemark : null, null);
    }

    // The file stays where it is and can be taken once the site file is mended; only what comes live has to be kept.
    private static void Refuse(string file, RamAnalysis analysis)
    {
        if (analysis.Zero.IsWrong)
        {
            throw new InputException(ZeroFacts.Refusal(file, analysis.Zero));
        }
    }

    private int Tell(Outcome outcome)
    {
        if (outcome.Refusal is { } refusal)
        {
            session.Say(refusal);
            return ExitCode.WrongInput;
        }

        session.Out.WriteLine(Phrases.Say("logging.taken", ("file", outcome.File), ("bursts", outcome.Added), ("known", outcome.Known)));
        if (outcome.StartRemark is { } remark)
        {
            session.Say(Phrases.Say("wrote.file-warning", ("file", outcome.File), ("what", remark)));
        }

        if (outcome.TooShort > 0)
        {
            session.Say(Phrases.Say("logging.too-short", ("file", outcome.File), ("bursts", outcome.TooShort)));
        }

        if (outcome.Lacks is not { } lacks)
        {
            return ExitCode.Done;
        }

        session.Warn(Phrases.Say(
            "logging.partly-lost",
            ("file", outcome.File), ("what", lacks.Count > 0 ? string.Join("; ", Catalogue.Current.Say(lacks)) : Phrases.Say("logging.see-analyse"))));
        return ExitCode.DonePartly;
    }

    private sealed record Outcome(string File, int Added, int Known, int TooShort, IReadOnlyList<Fact>? Lacks, Fact? StartRemark, string? Refusal);
}

/// <summary>Something to log.</summary>
/// <param name="Name">What the user calls it.</param>
/// <param name="Open">Opens it; tells how far it is on a session.</param>
internal sealed record SeasonInput(string Name, Func<Session, ISampleSource> Open);
