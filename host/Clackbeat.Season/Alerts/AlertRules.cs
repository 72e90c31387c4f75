using Clackbeat.Season.Store;
using Clackbeat.Season.Trend;
using Clackbeat.Signal.States;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;

namespace Clackbeat.Season.Alerts;

/// <summary>
/// From a burst to readings: what of it stands beyond a limit of the site, or of the ram's own past. What a burst can't tell
/// gives no reading, and no reading changes nothing.
/// </summary>
/// <param name="site">The ram.</param>
/// <param name="limits">When to speak.</param>
/// <param name="history">The ram's past; grows with the bursts.</param>
/// <param name="lastMark">When something was last done to the ram, asked for once a day; null for never.</param>
public sealed class AlertRules(RamSite site, AlertLimits limits, RamHistory history, Func<DateTimeOffset?> lastMark)
{
    // Four bursts are an hour of the usual schedule. With n bursts a year of which a share p goes beyond by accident, m in a row
    // come about n p^m times: one false alert a year allows p = 7 % for four, and 0.5 % for two.
    private const int AnHour = 4;
    private const int TwoInARow = 2;

    // A peak so far beyond the rating is told at once.
    private const double FarOver = 1.25;

    private const int BaselineDays = 14;
    private const int LeastBaselineDays = 7;
    private const int RecentDays = 30;
    private const double ClearShare = 0.75;

    private readonly EfficiencyRule _efficiency = new(limits.EfficiencyDrop, BaselineDays, LeastBaselineDays);

    /// <summary>Takes a burst that was stored.</summary>
    /// <param name="burst">The burst.</param>
    public IReadOnlyList<AlertReading> Take(SeasonBurst burst)
    {
        bool dayEnded = history.Take(burst);
        var readings = new List<AlertReading> { Signal(burst) };
        if (burst.State != RamState.NoSignal)
        {
            readings.Add(Stopped(burst));
        }

        if (burst.State == RamState.Beating)
        {
            Add(readings, Irregular(burst));
            Add(readings, OverRating(burst));
        }

        Add(readings, SupplyLow(burst));
        Add(readings, BatteryLow(burst));
        if (dayEnded)
        {
            Add(readings, _efficiency.Judge(history, burst.StartUtc, lastMark()));
        }

        return readings;
    }

    /// <summary>What it means that no burst came for so long, asked now and then; null while that is no news.</summary>
    /// <param name="nowUtc">Now.</param>
    /// <param name="silentFor">Time without a burst.</param>
    /// <param name="every">Period of the schedule.</param>
    public AlertReading? Silence(DateTimeOffset nowUtc, TimeSpan silentFor, TimeSpan every)
    {
        TimeSpan longest = limits.SilentAfter > 3 * every ? limits.SilentAfter : 3 * every;
        return silentFor <= longest ? null : new AlertReading(AlertKind.LoggerSilent, nowUtc - silentFor, Standing.Beyond, 1, 1)
        {
            Value = new SeasonValue(silentFor.TotalSeconds, null),
            Limit = longest.TotalSeconds,
            Detail = "no-burst",
        };
    }

    // A dead sensor's line is as silent as no line; a burst with a signal ends either.
    private static AlertReading Signal(SeasonBurst burst) => new(
        AlertKind.LoggerSilent, burst.StartUtc, burst.State == RamState.NoSignal ? Standing.Beyond : Standing.Within, AnHour, 1)
    {
        Detail = burst.State == RamState.NoSignal ? "no-signal" : "",
    };

    private static AlertReading Stopped(SeasonBurst burst) => new(
        AlertKind.Stopped, burst.StartUtc, burst.State == RamState.Beating ? Standing.Within : Standing.Beyond, TwoInARow, TwoInARow)
    {
        Detail = burst.State switch { RamState.StoppedShut => "shut", RamState.StoppedOpen => "open", _ => "" },
    };

    private AlertReading? Irregular(SeasonBurst burst)
    {
        if (!burst.Figures.TryGetValue(SeasonFigure.Irregularity, out SeasonValue value))
        {
            return null;
        }

        double[] past = [.. history.Days(SeasonFigure.Irregularity).TakeLast(RecentDays).Select(d => d.Value)];
        double? usual = past.Length >= LeastBaselineDays ? Robust.Median(past) : null;

        // Twice what is usual for this ram, or six robust standard deviations of its days, whichever is more.
        double limit = Math.Max(limits.IrregularityLeast, usual is { } u ? Math.Max(2 * u, u + (6 * Robust.Deviation(past))) : 0);
        return Reading(AlertKind.Irregular, burst, value, limit, ClearShare * limit, AnHour, AnHour) with { Usual = usual };
    }

    private AlertReading? OverRating(SeasonBurst burst)
    {
        if (!burst.Figures.TryGetValue(SeasonFigure.RatingUse, out SeasonValue value))
        {
            return null;
        }

        int toRaise = value.Value > FarOver * limits.RatingUse ? 1 : TwoInARow;
        SeasonValue? peak = burst.Figures.TryGetValue(SeasonFigure.PeakTrue, out SeasonValue found) ? found : null;
        return Reading(AlertKind.OverRating, burst, value, limits.RatingUse, 0.95 * limits.RatingUse, toRaise, 2 * AnHour) with { Peak = peak };
    }

    private AlertReading? SupplyLow(SeasonBurst burst)
    {
        if (!burst.Figures.TryGetValue(SeasonFigure.SupplyHead, out SeasonValue value))
        {
            return null;
        }

        double limit = limits.SupplyLow * site.Supply.HeadM;
        Standing standing = value.Value < limit ? Standing.Beyond : value.Value > 1.05 * limit ? Standing.Within : Standing.Between;
        return new AlertReading(AlertKind.SupplyLow, burst.StartUtc, standing, AnHour, 2 * AnHour) { Value = value, Limit = limit, Usual = site.Supply.HeadM };
    }

    // A lead battery rests some tenths of a volt higher than it stands under load, and a panel lifts it by a volt or two within a day:
    // only what is well above the limit ends the alert.
    private AlertReading? BatteryLow(SeasonBurst burst)
    {
        if (site.Battery.CutOffV is not { } cutOff || !burst.Figures.TryGetValue(SeasonFigure.Battery, out SeasonValue value))
        {
            return null;
        }

        double limit = cutOff + SiteSensing.BatteryMarginV;
        Standing standing = value.Value < limit ? Standing.Beyond : value.Value > limit + SiteSensing.BatteryMarginV ? Standing.Within : Standing.Between;
        return new AlertReading(AlertKind.BatteryLow, burst.StartUtc, standing, TwoInARow, TwoInARow) { Value = value, Limit = limit, Usual = cutOff };
    }

    private static AlertReading Reading(AlertKind kind, SeasonBurst burst, SeasonValue value, double limit, double clear, int toRaise, int toClear) => new(
        kind, burst.StartUtc, value.Value > limit ? Standing.Beyond : value.Value < clear ? Standing.Within : Standing.Between, toRaise, toClear)
    {
        Value = value,
        Limit = limit,
    };

    private static void Add(List<AlertReading> readings, AlertReading? reading)
    {
        if (reading is not null)
        {
            readings.Add(reading);
        }
    }
}
