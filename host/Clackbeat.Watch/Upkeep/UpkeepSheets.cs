using Clackbeat.Report.Upkeep;
using Clackbeat.Season.Store;
using Clackbeat.Season.Upkeep;
using Clackbeat.Season.Wording;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;

namespace Clackbeat.Watch.Upkeep;

/// <summary>Gathers from a season store what a logbook sheet tells.</summary>
public static class UpkeepSheets
{
    /// <summary>Gathers it.</summary>
    /// <param name="store">The store.</param>
    /// <param name="ram">The ram.</param>
    /// <param name="intervals">Intervals that the keeper chose, by code.</param>
    /// <param name="now">Now.</param>
    /// <param name="units">Units a page begins with.</param>
    public static UpkeepSheet Of(ISeasonStore store, string ram, IReadOnlyDictionary<string, UpkeepInterval> intervals, DateTimeOffset now, Units units)
    {
        (StreamSetting? low, StreamSetting? high) = StreamSettings.Of(store, ram, TimeZoneInfo.Local);
        return new UpkeepSheet(
            ram, units,
            [.. UpkeepRules.Judge(store, ram, intervals, now, TimeZoneInfo.Local).Select(d => new UpkeepCheck(UpkeepText.Task(d), UpkeepText.Every(d.Interval), UpkeepText.Since(d), UpkeepText.Standing(d), d.IsDue))],
            low is null ? null : Setting("upkeep.low-best", low, units), high is null ? null : Setting("upkeep.high-best", high, units),
            [.. store.Marks(ram).Reverse().Select(m => (DateOnly.FromDateTime(m.AtUtc.LocalDateTime), m.Words))]);
    }

    private static string Setting(string key, StreamSetting setting, Units units) => Catalogue.Current.Say(
            key, ("words", setting.Words), ("day", SeasonText.Day(setting.From)), ("flow", Phrases.Format(QuantityKind.Flow, setting.DeliveredM3PerS, units)), ("days", setting.Days))
        + " " + Phrases.Say(setting.IsCertain ? "upkeep.setting-certain" : "upkeep.setting-chance");
}
