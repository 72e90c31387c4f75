using System.CommandLine;
using Clackbeat.Frame;
using Clackbeat.Season.Store;
using Clackbeat.Season.Trend;
using static Clackbeat.Commands.TrendText;

namespace Clackbeat.Commands;

/// <summary>trend forecast: when a figure will cross a limit.</summary>
internal static class TrendForecastCommand
{
    public static ExampleCommand Create(Session session, TrendStore store)
    {
        var figure = new Option<string>("--figure") { Description = "Which figure", HelpName = "FIGURE", DefaultValueFactory = _ => "efficiency" };
        var limit = new Option<double>("--limit") { Description = "The limit, in the unit the tables show", HelpName = "NUMBER", Required = true };
        var json = CommonOptions.Json();
        var command = new ExampleCommand("forecast", "When a figure will cross a limit if it goes on as since its last change", "trend my-rams.db forecast --figure efficiency --limit 40") { figure, limit, json };
        command.SetAction(line =>
        {
            using ISeasonStore open = store.Open(line);
            SeasonFigure asked = SeasonUnit.Parse(line.GetRequiredValue(figure));
            string ram = store.RamOf(line, open);
            FigureTrend trend = TrendStore.Trend(open, ram, asked);
            Forecast? forecast = Forecast.Of(trend, line.GetValue(limit) / SeasonUnit.Of(asked).Factor);
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
        null => "Too few days since the last change for a forecast.",
        { Day: { } day } => $"{unit.Name} reaches {unit.Text(limit / unit.Factor)} about {Day(day)}, between {Say(forecast.Earliest)} and {Say(forecast.Latest)} (95 %), if it goes on as since its last change.",
        _ => $"{unit.Name} does not move towards {unit.Text(limit / unit.Factor)}{(forecast.Earliest is { } soonest ? $"; within the uncertainty it could from {Day(soonest)} on" : "")}.",
    };

    private static string Say(DateOnly? day) => day is { } d ? Day(d) : "never";
}
