using Clackbeat.Season.Alerts;
using Clackbeat.Unattended.Delivery;

namespace Clackbeat.Unattended.Alerts;

/// <summary>An alert as it is remembered.</summary>
public sealed record StoredAlert
{
    /// <summary>Its number, for 'log ack'.</summary>
    public required int Number { get; init; }

    /// <summary>Name of the ram; "log" for the log itself.</summary>
    public required string Ram { get; init; }

    /// <summary>What it is about.</summary>
    public required AlertKind Kind { get; init; }

    /// <summary>Since when it is so.</summary>
    public required DateTimeOffset SinceUtc { get; init; }

    /// <summary>When it was raised.</summary>
    public required DateTimeOffset RaisedUtc { get; init; }

    /// <summary>When it was over; null while it is up.</summary>
    public DateTimeOffset? ClearedUtc { get; init; }

    /// <summary>When somebody said that they have seen it; null for nobody.</summary>
    public DateTimeOffset? SeenUtc { get; init; }

    /// <summary>What they said.</summary>
    public string SeenWords { get; init; } = "";

    /// <summary>A line.</summary>
    public required string Title { get; init; }

    /// <summary>Sentences.</summary>
    public required string Text { get; init; }

    /// <summary>Messages about it that are to reach people, with how far each way is.</summary>
    public IReadOnlyList<Notice> Notices { get; init; } = [];

    /// <summary>Every message went out by every way, or was given up.</summary>
    public bool IsDelivered => Notices.All(n => n.Ways.Values.All(w => w.Done));
}

/// <summary>A message and its ways.</summary>
/// <param name="Message">The message.</param>
/// <param name="Ways">By the way's name.</param>
public sealed record Notice(AlertMessage Message, IReadOnlyDictionary<string, WayTries> Ways);

/// <summary>How far a way is with a message.</summary>
/// <param name="Done">It was taken over, or given up.</param>
/// <param name="Attempts">How often it was tried.</param>
/// <param name="NextUtc">When to try again.</param>
/// <param name="Error">What the last try met; empty for nothing.</param>
public sealed record WayTries(bool Done, int Attempts, DateTimeOffset NextUtc, string Error)
{
    private const int MostDoublings = 20;

    // A day of them, an hour apart at most: a computer without a clock chip may raise an alert in 1970 and hear of the true date
    // before it could send anything.
    private const int LeastTries = 24;

    private static readonly TimeSpan FirstWait = TimeSpan.FromMinutes(1);
    private static readonly TimeSpan LongestWait = TimeSpan.FromHours(1);
    private static readonly TimeSpan GiveUpAfter = TimeSpan.FromDays(30);

    /// <summary>A way that was not tried yet.</summary>
    /// <param name="nowUtc">Now.</param>
    internal static WayTries Fresh(DateTimeOffset nowUtc) => new(false, 0, nowUtc, "");

    /// <summary>Whether to try now. A calendar that was set back must not hold a message up.</summary>
    /// <param name="nowUtc">Now.</param>
    internal bool IsDue(DateTimeOffset nowUtc) => !Done && (NextUtc <= nowUtc || NextUtc - nowUtc > LongestWait);

    /// <summary>How far the way is after another try: waits that double up to an hour, and an end after a month.</summary>
    /// <param name="sentUtc">Time of the message.</param>
    /// <param name="nowUtc">Now.</param>
    /// <param name="error">What the try met; null when the message was taken over.</param>
    internal WayTries After(DateTimeOffset sentUtc, DateTimeOffset nowUtc, string? error)
    {
        int attempts = Attempts + 1;
        TimeSpan wait = FirstWait * Math.Pow(2, Math.Min(attempts - 1, MostDoublings));
        bool givenUp = error is not null && nowUtc - sentUtc > GiveUpAfter && attempts >= LeastTries;
        return new WayTries(error is null || givenUp, attempts, nowUtc + (wait < LongestWait ? wait : LongestWait), error ?? "");
    }
}
