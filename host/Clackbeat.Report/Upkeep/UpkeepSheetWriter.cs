using System.Globalization;
using System.Text;
using Clackbeat.Report.Content;
using Clackbeat.Report.Export;
using Clackbeat.Report.Html;
using Clackbeat.Report.Pdf;
using Clackbeat.Report.Wording;
using Clackbeat.Words;

namespace Clackbeat.Report.Upkeep;

/// <summary>Writes the logbook sheet of a ram: what is due, settings for low and high stream, frost, flood, and lines to write on.</summary>
public static class UpkeepSheetWriter
{
    private const int EmptyLines = 12;
    private const int MostMarks = 8;

    private static readonly string[] Frost = ["upkeep.frost-1", "upkeep.frost-2", "upkeep.frost-3", "upkeep.frost-4"];
    private static readonly string[] Flood = ["upkeep.flood-1", "upkeep.flood-2", "upkeep.flood-3", "upkeep.flood-4"];

    /// <summary>Writes it to a stream, which stays open.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="format">HTML or PDF.</param>
    /// <param name="sheet">What it tells.</param>
    /// <param name="made">When it is made.</param>
    public static void Write(Stream output, ReportFormat format, UpkeepSheet sheet, DateTimeOffset made)
    {
        ReportContent content = Make(sheet, made);
        if (format == ReportFormat.Pdf)
        {
            PdfReport.Write(output, content, made);
        }
        else
        {
            output.Write(Encoding.UTF8.GetBytes(HtmlReport.Write(content)));
        }
    }

    private static ReportContent Make(UpkeepSheet sheet, DateTimeOffset made)
    {
        int due = sheet.Checks.Count(c => c.IsDue);
        var verdict = new Verdict(
            due > 0 ? Tone.Look : Tone.Well, Phrases.Say("upkeep.title"),
            due > 0 ? Phrases.Say("upkeep.headline", ("due", due)) : Phrases.Say("upkeep.headline-none"), [Phrases.Say("upkeep.practice")]);
        Section[] sections =
        [
            new("checks", Phrases.Say("upkeep.checks"), [Checks(sheet)]),
            new("settings", Phrases.Say("upkeep.settings"), [new Bullets([.. Settings(sheet)])]),
            new("frost", Phrases.Say("upkeep.frost"), [new Bullets([.. Frost.Select(key => (Rich)Catalogue.Current.Say(key))])]),
            new("flood", Phrases.Say("upkeep.flood"), [new Bullets([.. Flood.Select(key => (Rich)Catalogue.Current.Say(key))])]),
            new("logbook", Phrases.Say("upkeep.logbook"), [Logbook(sheet)]),
        ];
        return new ReportContent(sheet.RamName, Phrases.Say("upkeep.made", ("day", Dates.Day(DateOnly.FromDateTime(made.DateTime)))), verdict, sections)
        {
            Units = sheet.Units,
            Kind = Phrases.Say("upkeep.title"),
        };
    }

    private static Table Checks(UpkeepSheet sheet) => new(
        Phrases.Say("upkeep.checks"), [Phrases.Say("upkeep.what"), Phrases.Say("upkeep.every"), Phrases.Say("upkeep.gone-by"), Phrases.Say("upkeep.standing")],
        [new TableGroup(null, [.. sheet.Checks.Select(c => new TableRow(c.Task, Rich.Empty, [c.Every, c.Since, c.Standing]))])])
    {
        IsText = true,
    };

    private static IEnumerable<Rich> Settings(UpkeepSheet sheet)
    {
        yield return Phrases.Say("upkeep.low-practice");
        yield return Phrases.Say("upkeep.high-practice");
        yield return sheet.LowStream ?? Phrases.Say("upkeep.low-unknown");
        yield return sheet.HighStream ?? Phrases.Say("upkeep.high-unknown");
    }

    private static Table Logbook(UpkeepSheet sheet) => new(
        Phrases.Say("upkeep.logbook"), [Phrases.Say("upkeep.day"), Phrases.Say("upkeep.done"), Phrases.Say("upkeep.who")],
        [
            new TableGroup(null,
            [
                .. sheet.Marks.Take(MostMarks).Select(m => new TableRow(m.Day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), Rich.Empty, [m.Words, ""])),
                .. Enumerable.Range(0, EmptyLines).Select(_ => new TableRow("\u00a0", Rich.Empty, ["\u00a0", "\u00a0"])),
            ]),
        ])
    {
        IsText = true,
    };
}
