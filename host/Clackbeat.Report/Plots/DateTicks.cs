using System.Globalization;
using Clackbeat.Report.Wording;
using ScottPlot.TickGenerators;

namespace Clackbeat.Report.Plots;

/// <summary>Ticks on an axis of day numbers: days within two months, months beyond, never more than there is room for.</summary>
internal static class DateTicks
{
    /// <summary>Makes them.</summary>
    /// <param name="first">First day.</param>
    /// <param name="length">Days after it.</param>
    /// <param name="most">About how many there is room for.</param>
    public static NumericManual For(DateOnly first, int length, int most = 13)
    {
        var ticks = new NumericManual();
        if (length < 62)
        {
            for (int day = 0; day <= length; day += Math.Max(1, length / Math.Min(8, most)))
            {
                ticks.AddMajor(first.DayNumber + day, $"{first.AddDays(day).Day} {Dates.Short(first.AddDays(day))}");
            }

            return ticks;
        }

        // Quarters, half-years and years are where a reader looks for them: on January.
        int wanted = (int)Math.Ceiling(length / 30.4 / most);
        int months = wanted switch { <= 3 => Math.Max(1, wanted), <= 6 => 6, _ => 12 * (1 + ((wanted - 1) / 12)) };
        bool named = false;
        for (var day = new DateOnly(first.Year, 1, 1); day.DayNumber <= first.DayNumber + length; day = day.AddMonths(months))
        {
            if (day >= first)
            {
                ticks.AddMajor(day.DayNumber, months >= 12 ? Year(day) : day.Month == 1 || !named ? $"{Dates.Short(day)} {Year(day)}" : Dates.Short(day));
                named = true;
            }
        }

        return ticks;
    }

    private static string Year(DateOnly day) => day.Year.ToString(CultureInfo.InvariantCulture);
}
