using System.CommandLine;
using Clackbeat.Frame;
using Clackbeat.Season.Store;
using Clackbeat.Season.Trend;
using Clackbeat.Season.Wording;
using Clackbeat.Words;
using static Clackbeat.Commands.Trend.TrendText;

namespace Clackbeat.Commands.Trend;

/// <summary>trend forecast: when a figure will cross a limit.</summary>
internal static class TrendForecastCommand
{
    public static ExampleCommand Create(Session session, TrendStore store)
    {
        var figure = new Option<string>("--figure") { Description = "Which figure", HelpName = "FIGURE", DefaultValueFactory = _ => "efficiency" };
        var limit = new Option<double>("--limit") { Description = "The limit, in the unit the tables show", HelpName = "NUMBER", Required = true };
        Option<bool> json = CommonOptions.Json();
        var command = new ExampleCommand("forecast", "When a figure will cross a limit if its trend since the last change continues", "trend my-rams.db forecast --figure efficiency --limit 40") { figure, limit, json };
        command.SetAction(line =>
        {
            using ISeasonStore open = store.Open(line);
            SeasonFigure asked = SeasonUnit.Parse(line.GetRequiredValue(figure));
            string ram = store.RamOf(line, open);
            FigureTrend trend = TrendStore.Trend(open, ram, asked);
            var forecast = Forecast.Of(trend, line.GetValue(limit) / SeasonUnit.Of(asked).Factor);
            if (line.GetValue(json))
            {
                JsonOut.Write(session, TrendJson.Of(ram, asked, line.GetValue(limit), forecast));
            }
            else
            {
                session.Out.WriteLine(Sentence(SeasonUnit.Of(asked), line.GetValue(limit), forecast));
            }

            return ExitCode.Done;
        });
        return command;
    }

    private static string Sentence(SeasonUnit unit, double limit, Forecast? forecast) => forecast switch
    {
        null => Phrases.Say("trend.forecast-few"),
        { Day: { } day } => Phrases.Say("trend.forecast", ("figure", unit.Name), ("limit", unit.Text(limit / unit.Factor)), ("day", Day(day)), ("earliest", Say(forecast.Earliest)), ("latest", Say(forecast.Latest))),
        { Earliest: { } soonest } => Phrases.Say("trend.forecast-perhaps", ("figure", unit.Name), ("limit", unit.Text(limit / unit.Factor)), ("day", Day(soonest))),
        _ => Phrases.Say("trend.forecast-away", ("figure", unit.Name), ("limit", unit.Text(limit / unit.Factor))),
    };

    private static string Say(DateOnly? day) => day is { } d ? Day(d) : Phrases.Say("trend.never");
}
