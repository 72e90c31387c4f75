using System.CommandLine;
using Clackbeat.Frame;
using Clackbeat.Records.Sources;
using Clackbeat.Records.Tables;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Signal.States;
using Clackbeat.Site;
using Clackbeat.Site.Model;
using Clackbeat.Words;

namespace Clackbeat.Commands.Analyse;

/// <summary>The options that name a record, and the way from its file to its analysis.</summary>
internal sealed class RecordInput
{
    public Argument<string> Input { get; } = new("INPUT") { Description = "Recording, pressure trace as CSV, TSV or .xlsx, or a shared record" };

    public Option<string?> Time { get; } = new("--time")
    {
        Description = "Time column and its unit (s, ms, min, h, day), by name or place; left out: as the header says",
        HelpName = "COLUMN[:UNIT]",
    };

    public Option<string?> Pressure { get; } = new("--pressure")
    {
        Description = "Pressure column and its unit (kPa, bar, psi, m, cm, ft of water; -cm reverses the sign); left out: as the header says",
        HelpName = "COLUMN[:UNIT]",
    };

    public Option<bool> Absolute { get; } = new("--absolute")
    {
        Description = "The record holds absolute pressure; the air pressure at the site's altitude is subtracted",
    };

    public Option<string?> Baseline { get; } = new("--baseline")
    {
        Description = "Record of the same ram when it was well, to compare with; left out: the one that 'clackbeat baseline' saved",
        HelpName = "INPUT",
    };

    public Option<bool> NoBaseline { get; } = SavedBaseline.Without();

    public Option<string[]> Earlier { get; } = new("--earlier")
    {
        Description = "Record between the baseline and this one, to tell what is growing; may be given again, oldest first",
        HelpName = "INPUT",
    };

    public Option<string[]> Bucket { get; } = new("--bucket")
    {
        Description = $"A bucket filled and timed while this was recorded, such as \"{BucketText.Example}\"; calibrates the flows of this record; may be given again",
        HelpName = "TEST",
    };

    public void AddTo(Command command)
    {
        command.Add(Input);
        command.Add(Time);
        command.Add(Pressure);
        command.Add(Absolute);
        command.Add(Baseline);
        command.Add(NoBaseline);
        command.Add(Earlier);
        command.Add(Bucket);
    }

    /// <summary>How the line says that files are to be read.</summary>
    public RecordReading Reading(ParseResult line) =>
        new(TraceColumns.Parse(line.GetValue(Time), line.GetValue(Pressure)), line.GetValue(Absolute));

    /// <summary>Analyses the record, and the baseline where one is given.</summary>
    /// <param name="session">The run.</param>
    /// <param name="line">The command line.</param>
    /// <param name="site">The ram.</param>
    /// <param name="sitePath">Its site file, beside which a saved baseline stands; null where the site came with the record.</param>
    public (RamAnalysis Analysis, RamAnalysis? Baseline) Analyse(Session session, ParseResult line, RamSite site, string? sitePath)
    {
        Catalogue.Current.ReadAhead();
        RecordReading reading = Reading(line);
        BucketTest[] buckets = Buckets(line);
        RamSite tested = buckets.Length > 0 ? site with { BucketTests = [.. site.BucketTests, .. buckets] } : site;
        RamAnalysis? baseline = ReadBaseline(session, line.GetValue(Baseline), line.GetValue(NoBaseline), sitePath, reading, site);
        EarlierRecord[] earlier = [.. ReadEarlier(session, line, reading, site, baseline)];
        return (Analyse(session, line.GetRequiredValue(Input), reading, tested, baseline?.Signature, earlier), baseline);
    }

    /// <summary>The baseline that the line names, or the one saved beside the site file; null for none.</summary>
    internal static RamAnalysis? ReadBaseline(Session session, string? given, bool without, string? sitePath, RecordReading reading, RamSite site)
    {
        if (given is not null)
        {
            return Analyse(session, given, reading, site).AsWell();
        }

        if (without || SavedBaseline.Find(sitePath) is not { } saved)
        {
            return null;
        }

        session.Say(Phrases.Say("record-read.compared", ("file", saved)));
        return Analyse(session, saved, RecordReading.Default, site).AsWell();
    }

    /// <summary>The buckets that were filled while this was recorded: those of the line, and those that a shared record brings.</summary>
    public BucketTest[] Buckets(ParseResult line) =>
    [
        .. RecordSite.BucketsInside(line.GetRequiredValue(Input)),
        .. (line.GetValue(Bucket) ?? []).Select(BucketText.Parse),
    ];

    private IEnumerable<EarlierRecord> ReadEarlier(Session session, ParseResult line, RecordReading reading, RamSite site, RamAnalysis? baseline)
    {
        string[] paths = line.GetValue(Earlier) ?? [];
        if (paths.Length > 0 && baseline is null)
        {
            throw InputException.Of("option.earlier-alone");
        }

        foreach (string path in paths)
        {
            if (Analyse(session, path, reading, site).Signature is { } signature)
            {
                yield return new EarlierRecord(Path.GetFileName(path), signature);
            }
            else
            {
                session.Warn(Phrases.Say("record-read.too-few-beats", ("file", path)));
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
            ? Phrases.Say("record-read.flat", ("file", analysis.Input.File))
            : $"{analysis.Input.File}: {Catalogue.Current.Completeness(analysis.Input.AllLosses)}.");
        return ExitCode.DonePartly;
    }

    /// <summary>Analyses a record, beside the signatures of a well one and of those between, where given.</summary>
    internal static RamAnalysis Analyse(Session session, string path, RecordReading reading, RamSite site, Signature? well = null, IReadOnlyList<EarlierRecord>? earlier = null)
    {
        ISampleSource source = RecordFile.Open(session, path, reading, site);
        RamAnalysis analysis = session.WithProgress(
            $"Reading {Path.GetFileName(path)}", progress => RecordAnalysis.Of(source, site, well, earlier, progress, session.Stop));
        return analysis.Zero.IsWrong ? throw new InputException(ZeroFacts.Refusal(path, analysis.Zero)) : analysis;
    }
}
