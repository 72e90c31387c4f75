using System.CommandLine;
using Clackbeat.Frame;
using Clackbeat.Report.Plots;
using Clackbeat.Season.Store;
using Clackbeat.Season.Trend;
using Clackbeat.Season.Wording;
using Clackbeat.Site;
using Clackbeat.Words;

namespace Clackbeat.Commands.Trend;

/// <summary>trend plot: one figure over the season.</summary>
internal static class TrendPlotCommand
{
    public static ExampleCommand Create(Session session, TrendStore store)
    {
        var figure = new Option<string>("--figure") { Description = $"Which: {string.Join(", ", SeasonFigures.Codes)}", DefaultValueFactory = _ => "efficiency", HelpName = "FIGURE" };
        var file = new Option<string>("--to") { Description = "Picture to write", HelpName = "FILE.svg", Required = true };
        Option<bool> overwrite = CommonOptions.Overwrite();
        var command = new ExampleCommand("plot", "Draw a figure over the season", "trend my-rams.db plot --figure rate --to rate.svg") { figure, file, overwrite };
        command.SetAction(line =>
        {
            PictureFile.Check(line.GetRequiredValue(file));
            using ISeasonStore open = store.Open(line);
            string picture = Picture(open, store.RamOf(line, open), SeasonUnit.Parse(line.GetRequiredValue(figure)));
            PictureFile.Write(line.GetRequiredValue(file), picture, line.GetValue(overwrite));
            session.Say(Phrases.Say("wrote.file", ("file", line.GetRequiredValue(file))));
            return ExitCode.Done;
        });
        return command;
    }

    /// <summary>The picture of one figure.</summary>
    public static string Picture(ISeasonStore store, string ram, SeasonFigure figure)
    {
        FigureTrend trend = TrendStore.Trend(store, ram, figure);
        if (trend.Measured.Count < 2)
        {
            throw InputException.Of("trend.nothing-to-draw", ("figure", figure.Code()), ("ram", ram));
        }

        var unit = SeasonUnit.Of(figure);
        return TrendPlot.Svg(
            unit.Label,
            [.. trend.Measured.Select(d => new PlottedDay(d.Day, d.Value * unit.Factor, d.Low * unit.Factor, d.High * unit.Factor) { IsUpperBound = d.IsUpperBound })],
            [
                .. store.Marks(ram).Select(m => new PlottedMark(DateOnly.FromDateTime(m.AtUtc.LocalDateTime), m.Words, ByHand: true)),
                .. trend.Changes.Where(c => SeasonText.IsSeen(trend, c))
                    .Select(c => new PlottedMark(DateOnly.FromDayNumber((int)c.At), Phrases.Say("trend.change-found"), ByHand: false)),
            ]);
    }
}
