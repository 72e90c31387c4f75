using Clackbeat.Season.Store;
using Clackbeat.Season.Trend;

namespace Clackbeat.Watch.Seasons;

/// <summary>What a store tells of one ram for its page.</summary>
/// <param name="Season">Figures and marks.</param>
/// <param name="Days">Every day with its water and hours, days of silence included.</param>
internal sealed record SeasonTold(RamSeason Season, IReadOnlyList<LedgerLine> Days)
{
    // What lasts less than a day shows in the calendar.
    private const double WorthTellingH = 24;

    /// <summary>Stretches on which it stood.</summary>
    public IReadOnlyList<TimeStretch> Stopped { get; private init; } = [];

    /// <summary>Stretches that nobody recorded.</summary>
    public IReadOnlyList<TimeStretch> Silent { get; private init; } = [];

    /// <summary>What was corrected, oldest first.</summary>
    public IReadOnlyList<JournalEntry> Journal { get; private init; } = [];

    /// <summary>Beats of the first day.</summary>
    public (DateOnly Day, IReadOnlyDictionary<BeatPart, BeatSpread> Beats) Then { get; private init; }

    /// <summary>Beats of the last day.</summary>
    public (DateOnly Day, IReadOnlyDictionary<BeatPart, BeatSpread> Beats) Now { get; private init; }

    /// <summary>Gathers it; null where the store holds no figure of the ram in that time.</summary>
    /// <param name="store">The store.</param>
    /// <param name="ram">The ram.</param>
    /// <param name="span">The time.</param>
    /// <param name="zone">Of the clock on the wall.</param>
    public static SeasonTold? Of(ISeasonStore store, string ram, TimeSpanUtc span, TimeZoneInfo zone)
    {
        if (RamSeason.Of(store, ram, span, zone) is not { } season)
        {
            return null;
        }

        (IReadOnlyList<TimeStretch> stopped, IReadOnlyList<TimeStretch> unknown) = Stretches.Of(store.States(ram, span), WorthTellingH);
        FigureTrend? rate = season.Trends.FirstOrDefault(t => t.Figure == SeasonFigure.Rate);
        (DateOnly, IReadOnlyDictionary<BeatPart, BeatSpread>) Beats(DateOnly day) => (day, BeatSpread.Of(store.Bursts(ram, CalendarDays.Span(day, day, zone))));
        return new SeasonTold(season, Ledger.WithSilence(Ledger.Days(store, ram, span, zone), zone))
        {
            Stopped = stopped,
            Silent = unknown,
            Journal = store is ICorrectableStore corrected ? corrected.Journal(ram) : [],
            Then = Beats(rate?.Days[0].Day ?? season.From),
            Now = Beats(rate?.Days[^1].Day ?? season.To),
        };
    }
}
