using Clackbeat.Season.Alerts;
using Clackbeat.Season.Store;
using Clackbeat.Site.Quantities;
using Clackbeat.Unattended.Alerts;
using Clackbeat.Unattended.Delivery;
using Clackbeat.Unattended.Settings;
using Clackbeat.Unattended.Tests.Bench;

namespace Clackbeat.Unattended.Tests.Alerts;

/// <summary>When messages go to people: together, not at night, and to others where nobody cares. The clock stands at 00:07 UTC, two hours more on the wall.</summary>
public sealed class AlertPacingTests : IDisposable
{
    private static readonly TimeZoneInfo Zone = TimeZoneInfo.CreateCustomTimeZone("test", TimeSpan.FromHours(2), "test", "test");
    private readonly TemporaryFolder _folder = new();
    private readonly BenchClock _clock = new(LogBench.Start);
    private readonly AlertBook _book;
    private readonly Inbox _people = new("email", isForPeople: true);
    private readonly Inbox _program = new("webhook", isForPeople: false);

    public AlertPacingTests() => _book = AlertBook.Open(_folder.Path, out _);

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Alerts_within_the_window_reach_people_as_one_message_and_programs_one_by_one()
    {
        var settings = new AlertSettings { Group = TimeSpan.FromMinutes(5) };
        Raise("mill", AlertKind.Stopped);
        await Deliver(settings, 3);
        Raise("ford", AlertKind.SupplyLow);
        Assert.Empty(_people.Got);
        Assert.Single(_program.Got);
        await Deliver(settings, 3);
        AlertMessage one = Assert.Single(_people.Got);
        Assert.Equal(("several", 2), (one.Event, one.Parts.Count));
        Assert.Contains("mill, ford", one.Title, StringComparison.Ordinal);
        Assert.Contains("alert 1", one.Text, StringComparison.Ordinal);
        Assert.Contains("alert 2", one.Text, StringComparison.Ordinal);
        Assert.Contains("\"parts\":[{", one.ToJson(), StringComparison.Ordinal);
        Assert.Equal(["mill", "ford"], _program.Got.Select(m => m.Ram));

        // One that comes alone is told as itself, and none is told twice.
        Raise("ford", AlertKind.LoggerSilent);
        await Deliver(settings, 6);
        await Deliver(settings, 6);
        Assert.Equal(2, _people.Got.Count);
        Assert.Equal("raised", _people.Got[1].Event);
    }

    [Fact]
    public async Task At_night_only_what_is_urgent_is_told_and_the_rest_in_the_morning()
    {
        var settings = new AlertSettings { Quiet = new QuietHours(new TimeOnly(22, 0), new TimeOnly(6, 0), Zone) };
        Raise("mill", AlertKind.Stopped);
        Raise("mill", AlertKind.SupplyLow);
        await Deliver(settings, 10);
        Assert.Empty(_people.Got);
        Raise("ford", AlertKind.OverRating);
        await Deliver(settings, 10);
        Assert.Equal("ford", Assert.Single(_people.Got).Ram);

        // 04:00 UTC is six in the morning there; the book is on the disk, so a restart forgets nothing.
        await Deliver(settings, (int)(LogBench.Start.Date.AddHours(3.95) - _clock.GetUtcNow().DateTime).TotalMinutes);
        Assert.Single(_people.Got);
        await Deliver(settings, 5);
        Assert.Equal(2, _people.Got[1].Parts.Count);
        Assert.Equal(3, _program.Got.Count);
    }

    [Fact]
    public void What_nobody_acknowledges_is_told_to_others_once_and_not_for_the_night()
    {
        var day = new AlertPacing(new AlertSettings { EscalateAfter = TimeSpan.FromHours(2) });
        var night = new AlertPacing(new AlertSettings
        {
            EscalateAfter = TimeSpan.FromHours(2),
            Quiet = new QuietHours(new TimeOnly(22, 0), new TimeOnly(6, 0), Zone),
        });
        Raise("mill", AlertKind.Stopped);
        Raise("ford", AlertKind.OverRating);
        Assert.Empty(Escalate(day, 1.9));
        Assert.Equal(["ford"], Escalate(night, 2.1));
        Assert.Equal(["mill"], Escalate(day, 2.1));
        Assert.Empty(Escalate(day, 50));

        // Raised at 02:07 on the wall: quiet until 06:00, so others hear of it at 08:00 and not before.
        Raise("weir", AlertKind.Stopped);
        Assert.Empty(Escalate(night, 5.8));
        Assert.Equal(["weir"], Escalate(night, 5.9));
    }

    [Fact]
    public void What_is_acknowledged_or_over_is_told_to_nobody_else()
    {
        var pacing = new AlertPacing(new AlertSettings { EscalateAfter = TimeSpan.FromHours(2) });
        Raise("mill", AlertKind.Stopped);
        Raise("ford", AlertKind.Stopped);
        SeenNote.Leave(_folder.Path, 1, _clock.GetUtcNow(), "on my way");
        _book.TakeSeen(keep: true);
        _book.Take("ford", Reading(AlertKind.Stopped, Standing.Within), _clock.GetUtcNow(), Units.Metric, []);
        Assert.Empty(Escalate(pacing, 5));
    }

    private IEnumerable<string> Escalate(AlertPacing pacing, double hours)
    {
        DateTimeOffset now = LogBench.Start.AddHours(hours);
        return _book.Escalate(alert => pacing.MustEscalate(alert, now), now, ["escalate-email"]).Select(m => m.Ram);
    }

    private void Raise(string ram, AlertKind kind) =>
        Assert.NotNull(_book.Take(ram, Reading(kind, Standing.Beyond), _clock.GetUtcNow(), Units.Metric, ["email", "webhook"]));

    private AlertReading Reading(AlertKind kind, Standing standing) =>
        new(kind, _clock.GetUtcNow(), standing, 1, 1) { Value = new SeasonValue(1.2, null), Limit = 1 };

    private async Task Deliver(AlertSettings settings, int minutes)
    {
        _clock.Advance(TimeSpan.FromMinutes(minutes));
        await new Deliverer(_book, [_people, _program], _clock, _ => { }, new AlertPacing(settings)).DeliverDue(CancellationToken.None);
    }

    private sealed class Inbox(string name, bool isForPeople) : IWay
    {
        public List<AlertMessage> Got { get; } = [];

        public string Name => name;

        public bool IsForPeople => isForPeople;

        public Task Send(AlertMessage message, CancellationToken cancellation)
        {
            Got.Add(message);
            return Task.CompletedTask;
        }
    }
}
