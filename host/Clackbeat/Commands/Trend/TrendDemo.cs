using System.Text.Json.Nodes;
using Clackbeat.Frame;
using Clackbeat.Season.Store;
using Clackbeat.Season.Trend;
using Clackbeat.Site;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;
using Clackbeat.VirtualSeason;
using Clackbeat.Words;

namespace Clackbeat.Commands.Trend;

/// <summary>trend --demo: a virtual year in a store, with its truth and what is told of it.</summary>
internal static class TrendDemo
{
    private const int ABatch = 500;

    /// <summary>Makes the year and shows it.</summary>
    public static int Run(Session session, string folder)
    {
        string path = Directory.CreateDirectory(folder).FullName;
        string file = Path.Combine(path, "season.db");
        if (File.Exists(file))
        {
            throw InputException.Of("input.exists-other-folder", ("file", file));
        }

        RamSite site = SiteFile.Parse(SiteTemplate.Text(Units.Metric), SiteTemplate.Name);
        var year = VirtualYear.Of(site, new SeasonScript(), stop: session.Stop);
        using var store = SqliteSeasonStore.Open(file, create: true);
        session.WithProgress(Phrases.Say("trend.year-passes"), progress => Fill(store, year, progress, session.Stop));
        JsonObject truth = year.Truth().ToJson();
        OutputFile.WriteText(Path.Combine(path, "truth.json"), truth.ToString(), overwrite: true);
        foreach (SeasonFigure figure in new[] { SeasonFigure.Efficiency, SeasonFigure.Delivered, SeasonFigure.Rate, SeasonFigure.PeakTrue, SeasonFigure.SupplyHead })
        {
            OutputFile.WriteText(Path.Combine(path, $"{figure.Code()}.svg"), TrendPlotCommand.Picture(store, site.Name, figure), overwrite: true);
        }

        IReadOnlyList<CalendarHour> hours = BeatCalendar.Of(store, site.Name, TimeSpanUtc.All, TimeZoneInfo.Local);
        OutputFile.WriteText(Path.Combine(path, "calendar.svg"), TrendCalendarCommand.Picture(site.Name, hours), overwrite: true);
        TrendOverview.Of(store, site.Name).Write(session);
        TrendTotalsCommand.Table(session, Ledger.Months(Ledger.Days(store, site.Name, TimeSpanUtc.All, TimeZoneInfo.Local)), "yyyy-MM");
        session.Say(Phrases.Say("trend.demo", ("folder", path)));
        return ExitCode.Done;
    }

    private static int Fill(SqliteSeasonStore store, VirtualYear year, IProgress<double> progress, CancellationToken stop)
    {
        int stored = 0;
        foreach (SeasonBurst[] batch in year.Bursts().Chunk(ABatch))
        {
            stop.ThrowIfCancellationRequested();
            stored += store.Add(batch);
            progress.Report(Math.Min(1, stored / 35_040.0));
        }

        foreach (MaintenanceMark mark in year.Marks())
        {
            store.Add(mark);
        }

        return stored;
    }
}
