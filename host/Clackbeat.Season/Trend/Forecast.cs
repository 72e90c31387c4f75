namespace Clackbeat.Season.Trend;

/// <summary>When a figure that goes on as it has since its last change will cross a limit.</summary>
/// <param name="Day">Central estimate; null where it doesn't move towards the limit.</param>
/// <param name="Earliest">By the steepest slope of the 95 % interval; null where even that doesn't.</param>
/// <param name="Latest">By the flattest; null where that never gets there.</param>
/// <param name="Trend">The trend it rests on.</param>
public sealed record Forecast(DateOnly? Day, DateOnly? Earliest, DateOnly? Latest, TrendLine Trend)
{
    private const double Farthest = 365.25 * 100;

    /// <summary>
    /// Forecasts from the days since the last change; null where they are too few. The line is turned about the middle of
    /// those days, where its value is known best.
    /// </summary>
    /// <param name="days">The days, oldest first.</param>
    /// <param name="changes">Changes of the series.</param>
    /// <param name="limit">The limit.</param>
    public static Forecast? Of(IReadOnlyList<DayValue> days, IReadOnlyList<ChangePoint> changes, double limit)
    {
        double since = changes.Count > 0 ? changes[^1].At : double.NegativeInfinity;
        DayValue[] recent = [.. days.Where(d => d.X >= since)];
        return TheilSen.Fit(recent) is { } trend ? Of(recent, trend, limit) : null;
    }

    /// <summary>The same with all that is known of a figure: what the seasons may do widens the dates too.</summary>
    /// <param name="figure">The figure.</param>
    /// <param name="limit">The limit.</param>
    public static Forecast? Of(FigureTrend figure, double limit) =>
        figure.Recent is { } trend ? Of([.. figure.Days.Where(d => d.Day >= figure.RecentFrom)], trend, limit) : null;

    private static Forecast Of(DayValue[] recent, TrendLine trend, double limit)
    {
        double middle = recent[recent.Length / 2].X;
        double missing = limit - trend.At(middle);
        double steepest = missing >= 0 ? trend.High : trend.Low;
        double flattest = missing >= 0 ? trend.Low : trend.High;
        return new Forecast(
            Crossing(middle, missing, trend.Slope), Crossing(middle, missing, steepest), Crossing(middle, missing, flattest), trend);
    }

    private static DateOnly? Crossing(double from, double missing, double slope)
    {
        double after = missing / slope;
        return double.IsFinite(after) && after is >= 0 and < Farthest ? DateOnly.FromDayNumber((int)Math.Round(from + after)) : null;
    }
}
