using Clackbeat.Season.Alerts;
using Clackbeat.Season.Store;
using Clackbeat.Unattended.Delivery;
using Clackbeat.Unattended.Raw;
using Clackbeat.Unattended.Settings;
using Clackbeat.Unattended.Surroundings;
using Clackbeat.Words;

namespace Clackbeat.Unattended.Alerts;

/// <summary>Turns what happens to the rams of a log, and to its disk, into alerts.</summary>
internal sealed class AlertDesk
{
    private static readonly TimeSpan LookEvery = TimeSpan.FromMinutes(1);

    private readonly LogSettings _settings;
    private readonly LogWorld _world;
    private readonly StoreGate _store;
    private readonly DiskKeeper _disk;
    private readonly AlertBook _book;
    private readonly IReadOnlyList<string> _ways;
    private readonly IReadOnlyList<string> _others;
    private readonly AlertPacing _pacing;
    private readonly Action<LogNews> _tell;
    private readonly Lock _gate = new();
    private readonly Dictionary<string, AlertRules> _rules = [];
    private readonly Dictionary<string, long> _heardAt;
    private long _lookedAt;

    public AlertDesk(LogSettings settings, LogWorld world, StoreGate store, DiskKeeper disk, AlertBook book, IReadOnlyList<IWay> ways, Action<LogNews> tell)
    {
        (_settings, _world, _store, _disk, _book, _tell) = (settings, world, store, disk, book, tell);
        _others = [.. Ways.Escalating(settings.Alerts).Select(w => w.Name)];
        _ways = [.. ways.Select(w => w.Name).Except(_others)];
        _pacing = new AlertPacing(settings.Alerts);
        _lookedAt = world.Time.GetTimestamp();
        _heardAt = settings.Rams.ToDictionary(r => r.Site.Name, _ => _lookedAt);
    }

    /// <summary>A burst was recorded: whatever becomes of the store, the logger isn't silent.</summary>
    public void Heard(string ram)
    {
        lock (_gate)
        {
            _heardAt[ram] = _world.Time.GetTimestamp();
        }
    }

    /// <summary>A burst is in the store.</summary>
    public void Stored(SeasonBurst burst)
    {
        lock (_gate)
        {
            if (Rules(burst.Ram, burst.StartUtc) is { } rules)
            {
                foreach (AlertReading reading in rules.Take(burst))
                {
                    Take(burst.Ram, reading);
                }
            }
        }
    }

    /// <summary>Looks at what no burst tells; called often, does something once a minute.</summary>
    public void Look()
    {
        foreach (StoredAlert seen in _book.TakeSeen(keep: true))
        {
            _tell(new LogNews(seen.Ram, Phrases.Say("unattended.alert-seen", ("alert", seen.Number), ("words", seen.SeenWords)).TrimEnd(), false));
        }

        if (_world.Time.GetElapsedTime(_lookedAt) < LookEvery)
        {
            return;
        }

        lock (_gate)
        {
            _lookedAt = _world.Time.GetTimestamp();
            DateTimeOffset now = _world.Time.GetUtcNow();
            foreach (RamSettings ram in _settings.Rams)
            {
                if (Rules(ram.Site.Name, now)?.Silence(now, _world.Time.GetElapsedTime(_heardAt[ram.Site.Name]), _settings.Every) is { } silence)
                {
                    Take(ram.Site.Name, silence);
                }
            }

            Take(AlertBook.Itself, Disk(now));
            foreach (AlertMessage message in _book.Escalate(alert => _pacing.MustEscalate(alert, now), now, _others))
            {
                _tell(new LogNews(null, message.Title, true));
            }
        }
    }

    /// <summary>Spans of time around a ram's alerts, for which raw bursts are precious.</summary>
    public IEnumerable<(DateTimeOffset From, DateTimeOffset To)> Spans(string ram)
    {
        TimeSpan around = _settings.Disk.AroundAlert;
        foreach (StoredAlert alert in _book.Alerts.Where(a => a.Ram == ram))
        {
            yield return (alert.SinceUtc - around, alert.RaisedUtc + around);
            if (alert.ClearedUtc is { } over)
            {
                yield return (over - around, over + around);
            }
        }
    }

    private AlertReading Disk(DateTimeOffset now)
    {
        long least = _settings.Disk.LeastFreeBytes;
        if (_disk.FreeBytes < least)
        {
            _disk.MakeRoom();
        }

        long free = _disk.FreeBytes;
        return new AlertReading(AlertKind.DiskFilling, now, free < least ? Standing.Beyond : free > 1.1 * least ? Standing.Within : Standing.Between, 2, 2)
        {
            Value = new SeasonValue(free, null),
            Limit = least,
        };
    }

    private void Take(string ram, AlertReading reading)
    {
        if (_book.Take(ram, reading, _world.Time.GetUtcNow(), _settings.Units, _ways) is { } message)
        {
            _tell(new LogNews(null, Phrases.Say("unattended.alert", ("title", message.Title), ("text", message.Text), ("alert", message.Alert)), message.Event == "raised"));
        }
    }

    // The past is read from the store at the first need; while the store can't be reached nothing is judged by it.
    private AlertRules? Rules(string ram, DateTimeOffset nowUtc)
    {
        if (_rules.TryGetValue(ram, out AlertRules? known))
        {
            return known;
        }

        try
        {
            RamHistory history = _store.Use(s => RamHistory.Of(s, ram, nowUtc));
            return _rules[ram] = new AlertRules(
                _settings.Rams.Single(r => r.Site.Name == ram).Site, _settings.Alerts.Limits, history, () => LastMark(ram));
        }
        catch (Exception fault) when (StoreGate.IsFault(fault))
        {
            return null;
        }
    }

    private DateTimeOffset? LastMark(string ram)
    {
        try
        {
            return _store.Use(s => s.Marks(ram).LastOrDefault(m => m.AtUtc <= _world.Time.GetUtcNow())?.AtUtc);
        }
        catch (Exception fault) when (StoreGate.IsFault(fault))
        {
            return null;
        }
    }
}
