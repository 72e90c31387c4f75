using System.CommandLine;
using Clackbeat.Frame;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Signal.Traces;
using Clackbeat.Site;
using Clackbeat.Site.Model;

namespace Clackbeat.Commands;

/// <summary>The options that name a record, and the way from its file to its analysis.</summary>
internal sealed class RecordInput
{
    private const int ChunkSamples = 8192;

    public Argument<string> Input { get; } = new("INPUT") { Description = "Recording, or pressure trace as CSV or TSV" };

    public Option<string?> Time { get; } = new("--time")
    {
        Description = "Time column and its unit (s, ms, min, h, day), by name or place; left out: t_s",
        HelpName = "COLUMN[:UNIT]",
    };

    public Option<string?> Pressure { get; } = new("--pressure")
    {
        Description = "Gauge pressure column and its unit (kPa, bar, psi, m, cm, ft of water; -cm turns it over); left out: p_kPa",
        HelpName = "COLUMN[:UNIT]",
    };

    public Option<string?> Baseline { get; } = new("--baseline")
    {
        Description = "Record of the same ram when it was well, to compare with",
        HelpName = "INPUT",
    };

    public Option<string[]> Earlier { get; } = new("--earlier")
    {
        Description = "Record between the baseline and this one, to tell what is growing; may be given again, oldest first",
        HelpName = "INPUT",
    };

    public Option<string[]> Bucket { get; } = new("--bucket")
    {
        Description = $"A bucket filled against a watch while this was recorded, such as \"{BucketText.Example}\"; sharpens the flows; may be given again",
        HelpName = "TEST",
    };

    public void AddTo(Command command)
    {
        command.Add(Input);
        command.Add(Time);
        command.Add(Pressure);
        command.Add(Baseline);
        command.Add(Earlier);
        command.Add(Bucket);
    }

    /// <summary>Analyses the record, and the baseline where one is given.</summary>
    public (RamAnalysis Analysis, RamAnalysis? Baseline) Analyse(Session session, ParseResult line, RamSite site)
    {
        TraceColumns columns = TraceColumns.Parse(line.GetValue(Time), line.GetValue(Pressure));
        BucketTest[] buckets = [.. (line.GetValue(Bucket) ?? []).Select(BucketText.Parse)];
        RamSite tested = buckets.Length > 0 ? site with { BucketTests = [.. site.BucketTests, .. buckets] } : site;
        RamAnalysis? baseline = line.GetValue(Baseline) is { } path ? Analyse(session, path, columns, site, null) : null;
        EarlierRecord[] earlier = [.. ReadEarlier(session, line, columns, site, baseline)];
        return (Analyse(session, line.GetRequiredValue(Input), columns, tested, baseline?.Signature, earlier), baseline);
    }

    private IEnumerable<EarlierRecord> ReadEarlier(Session session, ParseResult line, TraceColumns columns, RamSite site, RamAnalysis? baseline)
    {
        string[] paths = line.GetValue(Earlier) ?? [];
        if (paths.Length > 0 && baseline is null)
        {
            throw new InputException("--earlier tells what has grown since the ram was well: give that record too, with --baseline.");
        }

        foreach (string path in paths)
        {
            if (Analyse(session, path, columns, site).Signature is { } signature)
            {
                yield return new EarlierRecord(Path.GetFileName(path), signature);
            }
            else
            {
                session.Warn($"{path}: too few whole beats to compare with; left out.");
            }
        }
    }

    /// <summary>Says what was lost; the exit code follows from it.</summary>
    public static int Outcome(Session session, RamAnalysis analysis)
    {
        if (!analysis.Input.PartlyUnusable)
        {
            return ExitCode.Done;
        }

        session.Warn(analysis.State == RamState.NoSignal
            ? $"{analysis.Input.File}: every sample has the same value, so nothing of the ram can be told. Check sensor, cable and column."
            : $"{analysis.Input.File}: {analysis.Input.Completeness}.");
        return ExitCode.DonePartly;
    }

    /// <summary>Analyses a record, beside the signatures of a well one and of those between, where given.</summary>
    internal static RamAnalysis Analyse(Session session, string path, TraceColumns columns, RamSite site, Signature? well = null, IReadOnlyList<EarlierRecord>? earlier = null)
    {
        TraceInput trace = TraceInput.Open(session, path, columns, site);
        RamAnalysis analysis = session.WithProgress($"Reading {Path.GetFileName(path)}", progress =>
        {
            var analyser = new RamAnalyser(site, well, earlier);
            var timesS = new double[ChunkSamples];
            var pressuresPa = new double[ChunkSamples];
            int count = 0;
            trace.Read(row =>
            {
                (timesS[count], pressuresPa[count]) = (row.TimeS, row.PressurePa);
                if (++count == ChunkSamples)
                {
                    analyser.Add(timesS, pressuresPa);
                    count = 0;
                }
            }, progress, session.Stop);
            analyser.Add(timesS.AsSpan(0, count), pressuresPa.AsSpan(0, count));
            return analyser.Finish(path, trace.SkippedRows);
        });
        analysis = analysis with { Input = analysis.Input with { Marks = trace.Marks } };
        return trace.IsPartial ? WithLacks(analysis, trace.Lacks) : analysis;
    }

    private static RamAnalysis WithLacks(RamAnalysis analysis, IReadOnlyList<string> lacks)
    {
        var losses = analysis.Input.PartlyUnusable ? lacks.Append(analysis.Input.Completeness) : lacks;
        return analysis with
        {
            Input = analysis.Input with { PartlyUnusable = true, Completeness = string.Join("; ", losses) },
        };
    }
}
