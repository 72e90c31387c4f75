using Clackbeat.Frame;
using Clackbeat.Season.Store;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Traces;
using Clackbeat.Site.Model;
using Clackbeat.Unattended.Bursts;

namespace Clackbeat.Commands;

/// <summary>log of files: bursts of recordings and traces into the season store, each once.</summary>
internal static class LogFiles
{
    /// <summary>Takes one file.</summary>
    public static int Take(Session session, ISeasonStore store, RamSite ram, string file, TraceColumns columns, DateTimeOffset? start)
    {
        TraceInput input = TraceInput.Open(session, file, columns, ram);
        (int added, int known, bool partly) = (0, 0, input.IsPartial);
        var cutter = new BurstCutter(file, start, burst =>
        {
            if (store.Has(ram.Name, burst.Hash))
            {
                known++;
                return;
            }

            RamAnalysis analysis = burst.Analyse(ram, file);
            partly |= analysis.Input.PartlyUnusable;
            added += store.Add([BurstSummariser.Of(ram, analysis, burst.StartUtc, burst.Hash)]);
        });
        session.WithProgress($"Logging {Path.GetFileName(file)}", progress =>
        {
            input.Read(cutter.Take, progress, session.Stop);
            cutter.Finish();
            return added;
        });
        session.Out.WriteLine($"{file}: {added} {(added == 1 ? "burst" : "bursts")} stored, {known} already there");
        partly |= input.SkippedRows > 0;
        if (partly)
        {
            session.Warn($"{file}: some of it was lost or unusable: {(input.Lacks.Count > 0 ? string.Join("; ", input.Lacks) : "see 'clackbeat analyse'")}.");
        }

        return partly ? ExitCode.DonePartly : ExitCode.Done;
    }
}
