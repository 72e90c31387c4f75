using Clackbeat.Frame;
using Clackbeat.Season.Store;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Traces;
using Clackbeat.Site;
using Clackbeat.Site.Model;
using Clackbeat.Unattended.Bursts;

namespace Clackbeat.Commands;

/// <summary>
/// Files into the season store, on all cores: several files at once, or the bursts of one. A file that can't be used is told and
/// passed over where there are others.
/// </summary>
internal sealed class SeasonIngest(Session session, ISeasonStore store, RamSite ram, TraceColumns columns, DateTimeOffset? start)
{
    /// <summary>Takes the files, in their order as far as anybody can see.</summary>
    /// <param name="files">The files.</param>
    /// <returns>The exit code.</returns>
    public int Run(IReadOnlyList<string> files)
    {
        if (files.Count == 1)
        {
            return Tell(Take(session, files[0], Environment.ProcessorCount));
        }

        // Bars of several files at once would get in each other's way.
        Session quiet = Session.OnStreams(session.Out, session.Error, session.Stop);
        int done = 0;
        List<Outcome> outcomes = session.WithProgress($"Logging {files.Count} files", progress => files
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

    private Outcome TakeOrTell(Session quiet, string file)
    {
        try
        {
            return Take(quiet, file, workers: 1);
        }
        catch (Exception failure) when (failure is InputException or FileNotFoundException or DirectoryNotFoundException)
        {
            return new Outcome(file, 0, 0, null, failure is InputException ? failure.Message : $"{file}: there is no such file. Check the path.");
        }
    }

    private Outcome Take(Session shown, string file, int workers)
    {
        TraceInput input = TraceInput.Open(shown, file, columns, ram);
        bool partly = input.IsPartial;
        var intake = new BurstIntake(store, workers);
        var cutter = new BurstCutter(file, start, burst => intake.Take(ram.Name, burst.Hash, () =>
        {
            RamAnalysis analysis = burst.Analyse(ram, file);
            if (analysis.Input.PartlyUnusable)
            {
                Volatile.Write(ref partly, true);
            }

            return BurstSummariser.Of(ram, analysis, burst.StartUtc, burst.Hash);
        }));
        shown.WithProgress($"Logging {Path.GetFileName(file)}", progress =>
        {
            input.Read(cutter.Take, progress, session.Stop);
            cutter.Finish();
            intake.Finish();
            return intake.Added;
        });
        bool lacks = Volatile.Read(ref partly) || input.SkippedRows > 0;
        return new Outcome(file, intake.Added, intake.Known, lacks ? input.Lacks : null, null);
    }

    private int Tell(Outcome outcome)
    {
        if (outcome.Refusal is { } refusal)
        {
            session.Say(refusal);
            return ExitCode.WrongInput;
        }

        session.Out.WriteLine($"{outcome.File}: {outcome.Added} {(outcome.Added == 1 ? "burst" : "bursts")} stored, {outcome.Known} already there");
        if (outcome.Lacks is not { } lacks)
        {
            return ExitCode.Done;
        }

        session.Warn($"{outcome.File}: some of it was lost or unusable: {(lacks.Count > 0 ? string.Join("; ", lacks) : "see 'clackbeat analyse'")}.");
        return ExitCode.DonePartly;
    }

    private sealed record Outcome(string File, int Added, int Known, IReadOnlyList<string>? Lacks, string? Refusal);
}
