using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization;
using Clackbeat.Season.Alerts;
using Clackbeat.Site;
using Clackbeat.Site.Quantities;
using Clackbeat.Unattended.Delivery;
using Clackbeat.Unattended.Raw;
using Clackbeat.Unattended.Settings;

namespace Clackbeat.Unattended.Alerts;

/// <summary>
/// What is up, what was told, and what still has to reach whom: one file, written whole at each change, so that a restart at any
/// moment neither forgets an alert nor raises it twice. A message that went out in the very moment of a crash goes out again under
/// the same id.
/// </summary>
public sealed class AlertBook
{
    /// <summary>Name for alerts about the log itself.</summary>
    public const string Itself = "log";

    private const int MostAlerts = 1000;

    private static readonly JsonSerializerOptions Form = new() { WriteIndented = true, Converters = { new JsonStringEnumConverter() } };

    private readonly string _folder;
    private readonly Lock _gate = new();
    private Content _content;

    private AlertBook(string folder, Content content) => (_folder, _content) = (folder, content);

    /// <summary>All alerts it remembers, oldest first.</summary>
    public IReadOnlyList<StoredAlert> Alerts
    {
        get
        {
            lock (_gate)
            {
                return [.. _content.Alerts];
            }
        }
    }

    private string FilePath => PathIn(_folder);

    /// <summary>Opens the book of a log's folder; one that can't be read is put aside and a new one begun.</summary>
    /// <param name="folder">The log's folder.</param>
    /// <param name="spoilt">Name under which an unreadable one was put aside; null for none.</param>
    public static AlertBook Open(string folder, out string? spoilt)
    {
        spoilt = null;
        string path = PathIn(folder);
        if (!File.Exists(path))
        {
            return new AlertBook(folder, new Content());
        }

        try
        {
            return new AlertBook(folder, JsonSerializer.Deserialize<Content>(File.ReadAllText(path), Form) ?? new Content());
        }
        catch (JsonException)
        {
            spoilt = path + ".unreadable";
            File.Move(path, spoilt, overwrite: true);
            return new AlertBook(folder, new Content());
        }
    }

    /// <summary>The book of a log that may be running: only to look at.</summary>
    /// <param name="folder">The log's folder.</param>
    public static AlertBook Look(string folder)
    {
        string path = PathIn(folder);
        try
        {
            var book = new AlertBook(folder, File.Exists(path) ? JsonSerializer.Deserialize<Content>(File.ReadAllText(path), Form) ?? new Content() : new Content());
            book.TakeSeen(keep: false);
            return book;
        }
        catch (JsonException damaged)
        {
            throw InputException.Of(damaged, "logging.book-unreadable", ("file", path));
        }
    }

    /// <summary>Takes a reading; an alert that it raises or ends gets its message for every way.</summary>
    /// <param name="ram">Name of the ram.</param>
    /// <param name="reading">The reading.</param>
    /// <param name="nowUtc">Now.</param>
    /// <param name="units">Units of the words.</param>
    /// <param name="ways">Names of the ways.</param>
    /// <returns>The message; null when nothing came of it.</returns>
    public AlertMessage? Take(string ram, AlertReading reading, DateTimeOffset nowUtc, Units units, IEnumerable<string> ways)
    {
        lock (_gate)
        {
            string key = $"{ram}/{reading.Kind.Code()}";
            AlertStreak before = _content.Streaks.GetValueOrDefault(key) ?? new AlertStreak();
            (AlertStreak after, AlertChange change) = AlertJudge.Take(before, reading);
            if (after == before)
            {
                return null;
            }

            _content.Streaks[key] = after;
            AlertMessage? message = change switch
            {
                AlertChange.Raised => Raise(ram, reading, after.SinceUtc ?? reading.AtUtc, nowUtc, units, ways),
                AlertChange.Cleared => End(ram, reading.Kind, nowUtc, ways),
                _ => null,
            };
            Save();
            return message;
        }
    }

    /// <summary>Tells others of alerts that nobody has acknowledged; of each once.</summary>
    /// <param name="must">Whether it is time for an alert.</param>
    /// <param name="nowUtc">Now.</param>
    /// <param name="ways">Names of the ways to these others.</param>
    /// <returns>The messages.</returns>
    public IReadOnlyList<AlertMessage> Escalate(Func<StoredAlert, bool> must, DateTimeOffset nowUtc, IReadOnlyCollection<string> ways)
    {
        lock (_gate)
        {
            var messages = new List<AlertMessage>();
            for (int i = 0; i < _content.Alerts.Count; i++)
            {
                StoredAlert alert = _content.Alerts[i];
                if (alert.Notices.All(n => n.Message.Event != "escalated") && must(alert))
                {
                    var text = AlertText.Escalated(alert.Title, alert.Text, nowUtc - alert.RaisedUtc);
                    AlertMessage message = Message(alert.Number, "escalated", alert.Ram, alert.Kind, alert.SinceUtc, nowUtc, text);
                    _content.Alerts[i] = alert with { Notices = [.. alert.Notices, NoticeOf(message, ways, nowUtc)] };
                    messages.Add(message);
                }
            }

            if (messages.Count > 0)
            {
                Save();
            }

            return messages;
        }
    }

    /// <summary>Messages that are due, with their way.</summary>
    /// <param name="nowUtc">Now.</param>
    public IReadOnlyList<(int Alert, AlertMessage Message, string Way)> Due(DateTimeOffset nowUtc)
    {
        lock (_gate)
        {
            return
            [
                .. from alert in _content.Alerts
                   from notice in alert.Notices
                   from way in notice.Ways
                   where way.Value.IsDue(nowUtc)
                   select (alert.Number, notice.Message, way.Key),
            ];
        }
    }

    /// <summary>Notes how a try went.</summary>
    /// <param name="alert">Number of the alert.</param>
    /// <param name="message">Id of the message.</param>
    /// <param name="way">Name of the way.</param>
    /// <param name="nowUtc">Now.</param>
    /// <param name="error">What it met; null when the message was taken over.</param>
    /// <returns>How far the way is now.</returns>
    public WayTries Tried(int alert, string message, string way, DateTimeOffset nowUtc, string? error)
    {
        lock (_gate)
        {
            int at = _content.Alerts.FindIndex(a => a.Number == alert);
            StoredAlert stored = _content.Alerts[at];
            WayTries now = WayTries.Fresh(nowUtc) with { Done = true };
            _content.Alerts[at] = stored with
            {
                Notices =
                [
                    .. stored.Notices.Select(n =>
                    {
                        if (n.Message.Id != message)
                        {
                            return n;
                        }

                        now = n.Ways[way].After(n.Message.AtUtc, nowUtc, error);
                        return n with { Ways = n.Ways.ToDictionary(w => w.Key, w => w.Key == way ? now : w.Value) };
                    }),
                ],
            };
            Save();
            return now;
        }
    }

    /// <summary>Takes notes of what was seen into the book.</summary>
    /// <param name="keep">Write the book and remove the notes; otherwise only look.</param>
    public IReadOnlyList<StoredAlert> TakeSeen(bool keep)
    {
        lock (_gate)
        {
            var taken = new List<StoredAlert>();
            IReadOnlyList<SeenNote> notes = SeenNote.In(_folder);
            foreach (SeenNote note in notes)
            {
                int at = _content.Alerts.FindIndex(a => a.Number == note.Alert);
                if (at >= 0 && note.IsReadable)
                {
                    _content.Alerts[at] = _content.Alerts[at] with { SeenUtc = note.AtUtc, SeenWords = note.Words };
                    taken.Add(_content.Alerts[at]);
                }
            }

            if (keep && notes.Count > 0)
            {
                Save();
                SeenNote.Remove(_folder, notes);
            }

            return taken;
        }
    }

    private static string PathIn(string folder) => Path.Combine(folder, "alerts.json");

    private AlertMessage Raise(string ram, AlertReading reading, DateTimeOffset sinceUtc, DateTimeOffset nowUtc, Units units, IEnumerable<string> ways)
    {
        var text = AlertText.Raised(ram, reading, sinceUtc, units, TimeZoneInfo.Local);
        int number = _content.Next;
        AlertMessage message = Message(number, "raised", ram, reading.Kind, sinceUtc, nowUtc, text) with
        {
            Value = reading.Value?.Value,
            U = reading.Value?.U,
            IsUpperBound = reading.Value is { IsUpperBound: true },
            Limit = reading.Limit,
        };
        _content = _content with { Next = number + 1 };
        _content.Alerts.Add(new StoredAlert
        {
            Number = number,
            Ram = ram,
            Kind = reading.Kind,
            SinceUtc = sinceUtc,
            RaisedUtc = nowUtc,
            Title = text.Title,
            Text = text.Body,
            Notices = [NoticeOf(message, ways, nowUtc)],
        });
        if (_content.Alerts.Count > MostAlerts && _content.Alerts.FindIndex(a => a.ClearedUtc is not null && a.IsDelivered) is >= 0 and var old)
        {
            _content.Alerts.RemoveAt(old);
        }

        return message;
    }

    private AlertMessage? End(string ram, AlertKind kind, DateTimeOffset nowUtc, IEnumerable<string> ways)
    {
        int at = _content.Alerts.FindLastIndex(a => a.Ram == ram && a.Kind == kind && a.ClearedUtc is null);
        if (at < 0)
        {
            return null;
        }

        StoredAlert alert = _content.Alerts[at];
        var text = AlertText.Cleared(ram, kind, alert.SinceUtc, nowUtc, TimeZoneInfo.Local);
        AlertMessage message = Message(alert.Number, "cleared", ram, kind, alert.SinceUtc, nowUtc, text);
        _content.Alerts[at] = alert with { ClearedUtc = nowUtc, Notices = [.. alert.Notices, NoticeOf(message, ways, nowUtc)] };
        return message;
    }

    private static AlertMessage Message(
        int number, string what, string ram, AlertKind kind, DateTimeOffset sinceUtc, DateTimeOffset nowUtc, AlertText text) => new()
        {
            Id = string.Create(CultureInfo.InvariantCulture, $"{FolderName.Of(ram)}-{kind.Code()}-{sinceUtc.ToUnixTimeSeconds()}-{number}-{what}"),
            Alert = number,
            Event = what,
            Ram = ram,
            Kind = kind.Code(),
            SinceUtc = sinceUtc,
            AtUtc = nowUtc,
            Title = text.Title,
            Text = text.Body,
        };

    private static Notice NoticeOf(AlertMessage message, IEnumerable<string> ways, DateTimeOffset nowUtc) =>
        new(message, ways.ToDictionary(w => w, _ => WayTries.Fresh(nowUtc)));

    private void Save() => AtomicFile.Write(FilePath, JsonSerializer.Serialize(_content, Form));

    private sealed record Content
    {
        public int Next { get; init; } = 1;

        public Dictionary<string, AlertStreak> Streaks { get; init; } = [];

        public List<StoredAlert> Alerts { get; init; } = [];
    }
}
