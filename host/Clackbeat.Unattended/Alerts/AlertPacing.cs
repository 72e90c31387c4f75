using Clackbeat.Season.Alerts;
using Clackbeat.Unattended.Delivery;
using Clackbeat.Unattended.Settings;

namespace Clackbeat.Unattended.Alerts;

/// <summary>When messages go: what isn't urgent waits for the morning, and for others that come within a time and go along.</summary>
/// <param name="settings">What a keeper asked for.</param>
internal sealed class AlertPacing(AlertSettings settings)
{
    private readonly HashSet<string> _urgent = [.. settings.Urgent.Select(k => k.Code())];

    /// <summary>Those of a way's messages that may go now. When one goes to a person, all that wait go along.</summary>
    /// <param name="waiting">What waits for the way.</param>
    /// <param name="messageOf">The message of what waits.</param>
    /// <param name="isForPeople">The way takes several as one.</param>
    /// <param name="nowUtc">Now.</param>
    public IReadOnlyList<T> Ready<T>(IReadOnlyList<T> waiting, Func<T, AlertMessage> messageOf, bool isForPeople, DateTimeOffset nowUtc)
    {
        bool isQuiet = settings.Quiet?.Contains(nowUtc) == true;
        T[] awake = [.. waiting.Where(w => !isQuiet || IsUrgent(messageOf(w)))];
        bool goes = !isForPeople || awake.Any(w => IsUrgent(messageOf(w)) || (nowUtc - messageOf(w).AtUtc).Duration() >= settings.Group);
        return goes ? awake : [];
    }

    /// <summary>Whether nobody has cared for an alert for so long that somebody else must hear of it. Quiet hours don't count.</summary>
    /// <param name="alert">The alert.</param>
    /// <param name="nowUtc">Now.</param>
    public bool MustEscalate(StoredAlert alert, DateTimeOffset nowUtc)
    {
        if (settings.EscalateAfter is not { } after || alert.ClearedUtc is not null || alert.SeenUtc is not null || nowUtc - alert.RaisedUtc < after)
        {
            return false;
        }

        return settings.Quiet is not { } quiet || settings.Urgent.Contains(alert.Kind) || (!quiet.Contains(nowUtc) && quiet.SinceEnd(nowUtc) >= after);
    }

    private bool IsUrgent(AlertMessage message) => message.Event != "cleared" && _urgent.Contains(message.Kind);
}
