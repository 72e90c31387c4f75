using System.CommandLine;
using Clackbeat.Frame;
using Clackbeat.Report.Plots;
using Clackbeat.Season.Store;
using Clackbeat.Season.Trend;
using Clackbeat.Site;
using Clackbeat.Words;

namespace Clackbeat.Commands.Trend;

/// <summary>trend calendar: days by hours, when the ram beat, how fast, and when it stood.</summary>
internal static class TrendCalendarCommand
{
    public static ExampleCommand Create(Session session, TrendStore store)
    {
        var file = new Option<string?>("--to") { Description = "Picture to write", HelpName = "FILE.svg" };
        Option<bool> overwrite = CommonOptions.Overwrite();
        Option<bool> json = CommonOptions.Json();
        var command = new ExampleCommand("calendar", "Draw days by hours: when it beat, how fast, when it stood", "trend my-rams.db calendar --to calendar.svg") { file, overwrite, json };
        command.SetAction(line =>
        {
            if (line.GetValue(file) is null && !line.GetValue(json))
            {
                throw InputException.Of("trend.calendar-where");
            }

            using ISeasonStore open = store.Open(line);
            string ram = store.RamOf(line, open);
            IReadOnlyList<CalendarHour> hours = BeatCalendar.Of(open, ram, TimeSpanUtc.All, TimeZoneInfo.Local);
            if (line.GetValue(file) is { } path)
            {
                PictureFile.Write(path, Picture(ram, hours), line.GetValue(overwrite));
                session.Say(Phrases.Say("wrote.file", ("file", path)));
            }

            if (line.GetValue(json))
            {
                JsonOut.Write(session, TrendJson.Calendar(ram, hours));
            }

            return ExitCode.Done;
        });
        return command;
    }

    /// <summary>The picture.</summary>
    public static string Picture(string ram, IReadOnlyList<CalendarHour> hours) => hours.Count < 2 || hours[0].Day == hours[^1].Day
        ? throw InputException.Of("trend.no-calendar", ("ram", ram))
        : CalendarPlot.Svg([.. hours.Select(h => new PlottedHour(h.Day, h.Hour, h.BeatingShare, h.RatePerMin))]);
}
