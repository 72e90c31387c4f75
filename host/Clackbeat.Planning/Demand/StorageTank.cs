namespace Clackbeat.Planning.Demand;

/// <summary>Smallest tank that keeps the unmet share of a year's need within what is allowed.</summary>
public static class StorageTank
{
    /// <summary>Days of the months, a common year.</summary>
    public static readonly int[] Days = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

    private const double DayS = 86_400;

    // A year's store is more than anyone builds; what needs it needs another source.
    private const double LargestDays = 400;

    /// <summary>Sizes it by running day after day through two like years, the first of which fills the tank.</summary>
    /// <param name="deliveredM3PerS">Delivered in each month [m³/s].</param>
    /// <param name="neededM3PerS">Needed in each month [m³/s].</param>
    /// <param name="shortfall">Share of the year's need that may stay unmet, 0 to 1.</param>
    /// <returns>Volume [m³]; null where no tank helps, because the year brings too little.</returns>
    public static double? SizeM3(IReadOnlyList<double> deliveredM3PerS, IReadOnlyList<double> neededM3PerS, double shortfall)
    {
        double largest = LargestDays * DayS * neededM3PerS.Max();
        // A day's water is the least: a ram runs all night, and people draw by day.
        (double low, double high) = (DayS * neededM3PerS.Max(), largest);
        if (UnmetShare(deliveredM3PerS, neededM3PerS, low) <= shortfall)
        {
            return low;
        }

        if (UnmetShare(deliveredM3PerS, neededM3PerS, high) > shortfall)
        {
            return null;
        }

        while (high - low > 1e-3 * high)
        {
            double middle = (low + high) / 2;
            (low, high) = UnmetShare(deliveredM3PerS, neededM3PerS, middle) <= shortfall ? (low, middle) : (middle, high);
        }

        return high;
    }

    /// <summary>Share of a year's need that stays unmet with a tank of a size.</summary>
    /// <param name="deliveredM3PerS">Delivered in each month [m³/s].</param>
    /// <param name="neededM3PerS">Needed in each month [m³/s].</param>
    /// <param name="tankM3">The tank [m³].</param>
    public static double UnmetShare(IReadOnlyList<double> deliveredM3PerS, IReadOnlyList<double> neededM3PerS, double tankM3)
    {
        double store = 0, unmet = 0, needed = 0;
        for (int year = 0; year < 2; year++)
        {
            unmet = needed = 0;
            for (int month = 0; month < 12; month++)
            {
                for (int day = 0; day < Days[month]; day++)
                {
                    double need = DayS * neededM3PerS[month];
                    store += DayS * deliveredM3PerS[month];
                    double drawn = Math.Min(store, need);
                    store = Math.Min(store - drawn, tankM3);
                    unmet += need - drawn;
                    needed += need;
                }
            }
        }

        return needed > 0 ? unmet / needed : 0;
    }
}
