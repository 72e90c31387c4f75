using System.Globalization;
using Clackbeat.Frame;
using Clackbeat.Report.Wording;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Signal.Figures;
using Clackbeat.Signal.Flow;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;

namespace Clackbeat.Commands.Analyse;

/// <summary>The figures of a record as a page of plain text.</summary>
internal static class AnalysisText
{
    private static readonly HashSet<string> OfBuckets =
        ["flow-scale-made", "flow-scale-dropped-setup", "flow-scale-dropped-mark", "bucket-disagrees-delivery", "bucket-disagrees-waste"];

    /// <summary>What a keeper reads first: the verdict, what to do, six figures, the pipe and the record.</summary>
    public static void WriteFirst(Session session, RamSite site, RamAnalysis analysis, RamAnalysis? baseline)
    {
        session.Out.WriteLine($"{site.Name}: {Summary.Label(analysis)}");
        Layout.Paragraph(session, Summary.Headline(analysis, site.Units));
        Layout.Bullets(session, Summary.ToDo(analysis));
        session.Out.WriteLine();
        Figures(session, site, analysis, baseline, (a, u) => Chosen(a, u, isFirst: true));
        session.Out.WriteLine();

        // Whoever filled a bucket for this record waits for what it tells; and a sign that names no condition asks for a look.
        Fact[] told = [.. analysis.Findings.Concat(analysis.Limits).Where(f => OfBuckets.Contains(f.Code) || BeatRemarks.IsOne(f))];
        if (told.Length > 0)
        {
            Layout.Bullets(session, [.. Catalogue.Current.Say(told)]);
            session.Out.WriteLine();
        }

        Layout.Paragraph(session, Phrases.Say("screen.more-with-all", ("notes", analysis.Findings.Count + analysis.Limits.Count)));
    }

    /// <summary>All that the record tells.</summary>
    public static void WriteAll(Session session, RamSite site, RamAnalysis analysis, RamAnalysis? baseline)
    {
        session.Out.WriteLine($"{site.Name}: {Summary.Label(analysis)}");
        Layout.Paragraph(session, string.Join(" ", Summary.Sentences(analysis, site.Units)));
        session.Out.WriteLine();
        Figures(session, site, analysis, baseline, (a, u) => Chosen(a, u, isFirst: false));
        session.Out.WriteLine();
        Layout.Paragraph(session, Phrases.Say("screen.holds-truth-19-times-out"));
        FindingsText.Write(session, analysis.Diagnosis);
        Facts(session, Phrases.Say("screen.what-record-shows-besides"), analysis.Findings);
        Facts(session, Phrases.Say("screen.what-missing-uncertain"), analysis.Limits);
    }

    private static void Figures(Session session, RamSite site, RamAnalysis analysis, RamAnalysis? baseline, Func<RamAnalysis, Units, List<(string Name, string Value)>> rows)
    {
        List<(string Name, string Value)> now = rows(analysis, site.Units);
        if (baseline is null)
        {
            Layout.Pairs(session, now);
            return;
        }

        var well = rows(baseline, site.Units).ToDictionary(r => r.Name, r => r.Value);
        Layout.Table(session, ["", Phrases.Say("screen.now"), Phrases.Say("screen.when-well")], now.Select(r => (IReadOnlyList<string>)[r.Name, r.Value, well.GetValueOrDefault(r.Name, "")]));
    }

    // The rows of the first screen, in their order; the others come with --all.
    private static List<(string Name, string Value)> Chosen(RamAnalysis analysis, Units units, bool isFirst) =>
        [.. Rows(analysis, units).Where(r => !isFirst || r.IsFirst).Select(r => (r.Name, r.Value))];

    private static void Facts(Session session, string title, IReadOnlyList<Fact> facts)
    {
        if (facts.Count > 0)
        {
            session.Out.WriteLine();
            session.Out.WriteLine(title);
            Layout.Bullets(session, [.. Catalogue.Current.Say(facts)]);
        }
    }

    private static List<(string Name, string Value, bool IsFirst)> Rows(RamAnalysis analysis, Units units)
    {
        var rows = new List<(string, string, bool)>();
        void Add(string name, string? value, bool isFirst = false)
        {
            if (value is not null)
            {
                rows.Add((name, value, isFirst));
            }
        }

        string? Pressure(double? pressurePa) =>
            pressurePa is { } p ? Phrases.Format(QuantityKind.Pressure, p, units) : null;
        string? With(QuantityKind kind, Figure? figure) =>
            figure is { } f ? (f.IsUpperBound ? Phrases.Say("screen.most") : "") + Phrases.Format(kind, f.Value, f.U, units) : null;

        Add(Phrases.Say("screen.record"), Phrases.Say("screen.samples-second", ("length", Phrases.Format(QuantityKind.Duration, analysis.Input.DurationS, units)), ("samples", analysis.Input.Samples), ("sample_rate_hz", analysis.Input.SampleRateHz)), isFirst: true);
        if (analysis.Input.Board is { } board)
        {
            Add(Phrases.Say("report.times-of-samples"), Phrases.Say("report.each-good-to", ("bound_us", 1e6 * board.InstantBoundS), ("jitter_us", 1e6 * board.JitterS)));
        }

        Add(Phrases.Say("screen.beats"), Phrases.Number(analysis.Beats.Count.ToString(CultureInfo.InvariantCulture)));
        Add(Phrases.Say("screen.beat-rate"), analysis.Beats.RatePerMin is { } rate ? Phrases.Say("screen.minute", ("rate", Phrases.WithMargin(rate.Value, rate.U))) : null, isFirst: true);
        Add(Phrases.Say("screen.regularity"), analysis.Beats.Irregularity is { } scatter ? Phrases.Say("screen.intervals-scatter", ("scatter", 100 * scatter)) : null);
        Add(Phrases.Say("screen.peak-surge"), analysis.Pressure.PeakMedianPa is null ? null : Phrases.Say("screen.usually-most-sampled", ("usual", Pressure(analysis.Pressure.PeakMedianPa) ?? ""), ("most", Pressure(analysis.Pressure.PeakMaxPa) ?? "")));
        Add(Phrases.Say("screen.estimated-peak"), With(QuantityKind.Pressure, analysis.Pressure.PeakTrue), isFirst: true);
        Add(Phrases.Say("screen.delivery-pressure"), With(QuantityKind.Pressure, analysis.Pressure.Delivery), isFirst: true);
        Add(Phrases.Say("screen.allowed-again-again"), Pressure(analysis.Pipe.AllowablePa), isFirst: true);
        Add(Phrases.Say("screen.drive-pipe-pressure"), analysis.Pipe.PeakPa is null ? null : Summary.Pipe(analysis.Pipe).Pressure, isFirst: true);
        Add(Phrases.Say("screen.drive-pipe-fatigue"), Summary.Pipe(analysis.Pipe).Fatigue, isFirst: true);
        Add(Phrases.Say("screen.lowest-suction"), Pressure(analysis.Pressure.SuctionMinPa));
        Add(Phrases.Say("screen.mean-pressure"), Pressure(analysis.Pressure.MeanPa));
        Add(Phrases.Say("screen.pressure-rest"), analysis.Pressure.StaticIsMeasured ? Pressure(analysis.Pressure.StaticPa) : null);
        (FlowSummary flow, EfficiencySummary efficiency) = (analysis.Flow, analysis.Efficiency);
        if (analysis.IsStopped)
        {
            Add(Phrases.Say("screen.delivered"), Phrases.Say("screen.nothing-now-stands-still"), isFirst: true);
        }

        if (analysis.WhileBeating is { Flow.DeliveredM3PerS: not null } before)
        {
            (flow, efficiency) = (before.Flow, before.Efficiency);
            Add(Phrases.Say("screen.while-beat"), Phrases.Say("screen.s-s-record", ("from", before.FromS - analysis.Input.StartS), ("until", before.UntilS - analysis.Input.StartS)), isFirst: true);
        }

        Add(analysis.IsStopped ? Phrases.Say("screen.delivered-2") : Phrases.Say("screen.delivered"), With(QuantityKind.Flow, flow.DeliveredM3PerS), isFirst: true);
        Add(analysis.IsStopped ? Phrases.Say("screen.wasted") : Phrases.Say("screen.waste"), With(QuantityKind.Flow, flow.WasteM3PerS), isFirst: true);
        Add(analysis.IsStopped ? Phrases.Say("screen.velocity-closure") : Phrases.Say("screen.velocity-closure-2"), With(QuantityKind.Velocity, flow.ClosingVelocityMPerS));
        Add(analysis.IsStopped ? Phrases.Say("screen.efficiency-daubuisson") : Phrases.Say("screen.efficiency-daubuisson-2"), With(QuantityKind.Share, efficiency.DAubuisson), isFirst: true);
        Add(Phrases.Say("screen.wave-speed"), With(QuantityKind.Velocity, analysis.DrivePipe.WaveSpeedMPerS));
        Add(Phrases.Say("screen.site-file-rest"), analysis.Pressure.StaticIsMeasured ? null : Pressure(analysis.Pressure.StaticPa));
        return rows;
    }
}
