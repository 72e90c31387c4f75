using System.Text;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using AngleSharp.Html.Parser;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Report.Content;
using Clackbeat.Report.Export;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Figures;
using Clackbeat.Signal.States;
using Clackbeat.Site.Model;

namespace Clackbeat.Report.Tests;

/// <summary>Makes reports to look at.</summary>
internal static class Reports
{
    public static readonly DateTimeOffset Made = new(2026, 5, 3, 9, 40, 0, TimeSpan.FromHours(2));

    public static readonly IReadOnlyDictionary<string, RamAnalysis> Cases = new Dictionary<string, RamAnalysis>
    {
        ["every figure given"] = MadeUpRam.Analysis(),
        ["a gap in the record"] = MadeUpRam.Analysis(gap: new Gap(14, 6)),
        ["flows withheld"] = Bare(12),
        ["one beat"] = Bare(1),
        ["no beat"] = Bare(0),
        ["stopped shut"] = Bare(4) with { State = RamState.StoppedShut },
        ["stopped open"] = Bare(0) with { State = RamState.StoppedOpen },
        ["no signal"] = MadeUpRam.Bare([], [], []) with { State = RamState.NoSignal },
    };

    public static byte[] Write(ReportFormat format, RamAnalysis analysis, RamAnalysis? baseline = null, RamSite? site = null, RemedyTable? remedies = null)
    {
        using var output = new MemoryStream();
        ReportWriter.Write(output, format, site ?? MadeUpRam.Site(), analysis, baseline, Made, remedies is null ? null : new TwinPart { Remedies = remedies });
        return output.ToArray();
    }

    public static string Html(RamAnalysis analysis, RamAnalysis? baseline = null, RamSite? site = null, RemedyTable? remedies = null) =>
        Encoding.UTF8.GetString(Write(ReportFormat.Html, analysis, baseline, site, remedies));

    public static IHtmlDocument Page(RamAnalysis analysis, RamAnalysis? baseline = null, RamSite? site = null, RemedyTable? remedies = null) =>
        new HtmlParser().ParseDocument(Html(analysis, baseline, site, remedies));

    /// <summary>What a reader hears: text without markup, white space run together.</summary>
    public static string Said(this INode? node) =>
        string.Join(' ', (node?.TextContent ?? "").Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)).Replace('\u00A0', ' ');

    /// <summary>What a keeper reads before the annex.</summary>
    public static string FirstPage(IHtmlDocument page) =>
        string.Join(' ', page.QuerySelectorAll("main > section").TakeWhile(s => s.Id != "annex").Select(s => s.Said()));

    private static RamAnalysis Bare(int beats)
    {
        (double[] t, double[] p, List<Signal.Beats.Beat> list) = MadeUpRam.Trace(beats);
        return MadeUpRam.Bare(t, p, list);
    }
}
