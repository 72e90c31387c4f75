using Clackbeat.Season.Store;

namespace Clackbeat.Season.Upkeep;

/// <summary>Something that is checked from time to time.</summary>
/// <param name="Code">Its code: a column of the list of rams, and a key of the catalogue.</param>
/// <param name="Usual">How often, where the keeper says nothing else.</param>
/// <param name="Signs">Figures whose trend calls for it, and whether they rise or fall then.</param>
public sealed record UpkeepTask(string Code, UpkeepInterval Usual, IReadOnlyList<(SeasonFigure Figure, bool Rises)> Signs)
{
    /// <summary>
    /// All of them, in the order of a walk from the intake down. The intervals are common practice on small rams: no standard sets them, and
    /// a keeper changes them in the list of rams.
    /// </summary>
    public static IReadOnlyList<UpkeepTask> All { get; } =
    [
        new("strainer", new UpkeepInterval(7, null, null), [(SeasonFigure.SupplyHead, false)]),
        new("drive-pipe", new UpkeepInterval(365, null, null), [(SeasonFigure.PeakTrue, true)]),
        new("bolts", new UpkeepInterval(90, null, null), []),
        new("waste-valve", new UpkeepInterval(null, 2000, 5e6), [(SeasonFigure.Irregularity, true), (SeasonFigure.Efficiency, false)]),
        new("delivery-valve", new UpkeepInterval(null, 4000, 1e7), [(SeasonFigure.Efficiency, false)]),
        new("air-vessel", new UpkeepInterval(30, null, null), []),
        new("delivery-main", new UpkeepInterval(365, null, null), [(SeasonFigure.DeliveryPressure, true)]),
        new("sensor", new UpkeepInterval(365, null, null), []),
        new("battery", new UpkeepInterval(90, null, null), [(SeasonFigure.Battery, false)]),
    ];
}

/// <summary>How a check stands.</summary>
/// <param name="Task">What is checked.</param>
/// <param name="Interval">How often.</param>
/// <param name="Last">When it was done last; null where no mark says so, and all is counted from the first record.</param>
/// <param name="Days">Days since.</param>
/// <param name="Hours">Hours run since, as far as they were recorded.</param>
/// <param name="Beats">Beats since: hours times the day's rate.</param>
/// <param name="UnrecordedH">Hours since of which nothing is known.</param>
public sealed record UpkeepDue(UpkeepTask Task, UpkeepInterval Interval, DateOnly? Last, double Days, double Hours, double Beats, double UnrecordedH)
{
    /// <summary>The figure whose trend calls for it before its time; null for none.</summary>
    public SeasonFigure? Sign { get; init; }

    /// <summary>Share of the interval that is used up: 1 and more is due. Hours of which nothing is known count as if it had run.</summary>
    public double Used
    {
        get
        {
            double all = Hours + UnrecordedH;
            double beats = Hours > 0 ? Beats * all / Hours : 0;
            return new[] { Days / Interval.Days, all / Interval.Hours, beats / Interval.Beats }.Max() ?? 0;
        }
    }

    /// <summary>It is time for it, by the interval or by a trend.</summary>
    public bool IsDue => Used >= 1 || Sign is not null;
}
