using Clackbeat.Season.Alerts;
using Clackbeat.Season.Store;
using Clackbeat.Site.Quantities;
using Clackbeat.Unattended.Alerts;
using Clackbeat.Unattended.Delivery;
using Clackbeat.Unattended.Settings;
using Clackbeat.Unattended.Surroundings;
using Clackbeat.Unattended.Tests.Bench;

namespace Clackbeat.Unattended.Tests.Alerts;

public sealed class AlertBookTests : IDisposable
{
    private static readonly DateTimeOffset Start = LogBench.Start;
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void A_figure_that_hovers_at_its_limit_neither_raises_nor_ends_an_alert()
    {
        Assert.Equal("", Told("BBBWBBBWBBB"));
        Assert.Equal("", Told("BBB-BBB-BBB"));
        Assert.Equal("R", Told("BBBB-B-B-BBBB"));
        Assert.Equal("R", Told("BBBBWWW-WWWBWWW"));
        Assert.Equal("RCR", Told("BBBBWWWWBBBB"));
    }

    [Fact]
    public void An_alert_is_raised_once_over_any_number_of_restarts_and_ended_once()
    {
        List<string> told = [];
        foreach (char c in "BBBBBBBBWWWWWW")
        {
            // A new program for each reading.
            if (AlertBook.Open(_folder.Path, out _).Take("mill", Reading(c, told.Count), Start, Units.Metric, ["command"]) is { } message)
            {
                told.Add(message.Event);
            }
        }

        Assert.Equal(["raised", "cleared"], told);
        StoredAlert alert = Assert.Single(AlertBook.Look(_folder.Path).Alerts);
        Assert.NotNull(alert.ClearedUtc);
        Assert.Equal(2, alert.Notices.Select(n => n.Message.Id).Distinct().Count());
    }

    [Fact]
    public async Task A_message_waits_on_the_disk_until_somebody_takes_it_and_is_tried_with_growing_pauses()
    {
        var clock = new BenchClock(Start);
        Raise();
        var way = new FailingWay { IsDown = true };
        List<LogNews> news = [];
        for (int minute = 0; minute < 60; minute++)
        {
            await new Deliverer(AlertBook.Open(_folder.Path, out _), [way], clock, news.Add).DeliverDue(CancellationToken.None);
            clock.Advance(TimeSpan.FromMinutes(1));
        }

        // At once, then after 1, 2, 4, 8, 16 and 32 minutes: tries at 0, 1, 3, 7, 15 and 31; the next would be at 63.
        Assert.Equal(6, way.Tries);
        way.IsDown = false;
        clock.Advance(TimeSpan.FromHours(1));
        await new Deliverer(AlertBook.Open(_folder.Path, out _), [way], clock, news.Add).DeliverDue(CancellationToken.None);
        await new Deliverer(AlertBook.Open(_folder.Path, out _), [way], clock, news.Add).DeliverDue(CancellationToken.None);
        Assert.Equal("mill: it has stopped", Assert.Single(way.Got).Title);
        Assert.True(Assert.Single(AlertBook.Look(_folder.Path).Alerts).IsDelivered);
    }

    [Fact]
    public async Task A_message_that_nobody_took_for_a_month_is_given_up_and_told()
    {
        var clock = new BenchClock(Start);
        Raise();
        var way = new FailingWay { IsDown = true };
        List<LogNews> news = [];
        var deliverer = new Deliverer(AlertBook.Open(_folder.Path, out _), [way], clock, news.Add);
        for (int day = 0; day < 31; day++)
        {
            await deliverer.DeliverDue(CancellationToken.None);
            Assert.Single(news);
            clock.Advance(TimeSpan.FromDays(1));
        }

        await deliverer.DeliverDue(CancellationToken.None);
        Assert.Contains("given up", news[^1].Words, StringComparison.Ordinal);
        Assert.Empty(AlertBook.Open(_folder.Path, out _).Due(clock.GetUtcNow().AddDays(1)));
    }

    [Fact]
    public async Task A_message_raised_before_the_clock_was_set_is_not_given_up_at_the_first_try()
    {
        var clock = new BenchClock(Start);
        Raise();
        var way = new FailingWay { IsDown = true };
        clock.Set(TimeSpan.FromDays(56 * 365));
        await new Deliverer(AlertBook.Open(_folder.Path, out _), [way], clock, _ => { }).DeliverDue(CancellationToken.None);
        way.IsDown = false;
        clock.Advance(TimeSpan.FromMinutes(2));
        await new Deliverer(AlertBook.Open(_folder.Path, out _), [way], clock, _ => { }).DeliverDue(CancellationToken.None);
        Assert.Single(way.Got);
    }

    [Fact]
    public void A_note_that_somebody_has_seen_it_reaches_the_book_of_a_running_log_and_of_one_that_rests()
    {
        Raise();
        var running = AlertBook.Open(_folder.Path, out _);
        SeenNote.Leave(_folder.Path, 1, Start.AddHours(1), "on my way");
        Assert.Equal("on my way", Assert.Single(AlertBook.Look(_folder.Path).Alerts).SeenWords);
        Assert.Equal(1, Assert.Single(running.TakeSeen(keep: true)).Number);
        Assert.Empty(running.TakeSeen(keep: true));
        Assert.Equal(Start.AddHours(1), Assert.Single(AlertBook.Look(_folder.Path).Alerts).SeenUtc);
    }

    [Fact]
    public void A_book_that_is_damaged_is_put_aside_and_a_new_one_begun()
    {
        Raise();
        File.WriteAllText(_folder["alerts.json"], "{ torn");
        Assert.Empty(AlertBook.Open(_folder.Path, out string? spoilt).Alerts);
        Assert.True(File.Exists(spoilt));
    }

    [Fact]
    public void Words_name_ram_time_figure_limit_and_what_to_check_in_the_units_asked_for()
    {
        var zone = TimeZoneInfo.CreateCustomTimeZone("x", TimeSpan.FromHours(2), "x", "x");
        AlertReading low = new(AlertKind.SupplyLow, Start, Standing.Beyond, 1, 1) { Value = new SeasonValue(1.6, 0.05), Limit = 1.75, Usual = 2.5 };
        var metric = AlertText.Raised("mill", low, Start, Units.Metric, zone);
        Assert.Equal("mill: its supply is low", metric.Title);
        Assert.Contains("2026-03-01 02:07 UTC+02:00", metric.Body, StringComparison.Ordinal);
        Assert.Contains("1.60 ± 0.05 m; the limit is 1.75 m", metric.Body, StringComparison.Ordinal);
        Assert.Contains("Check first: the intake", metric.Body, StringComparison.Ordinal);

        // 1.6 m are 5.25 ft: 1 ft is 0.3048 m exactly.
        Assert.Contains("5.25 ± 0.16 ft", AlertText.Raised("mill", low, Start, Units.Us, zone).Body, StringComparison.Ordinal);
        foreach (AlertKind kind in Enum.GetValues<AlertKind>())
        {
            var text = AlertText.Raised("mill", low with { Kind = kind }, Start, Units.Us, zone);
            Assert.Contains("Check first: ", text.Body, StringComparison.Ordinal);
            Assert.Contains("02:07", text.Body, StringComparison.Ordinal);
            Assert.NotEqual(text.Title, AlertText.Cleared("mill", kind, Start, Start, zone).Title);
        }
    }

    [Fact]
    public void A_log_tells_once_that_its_ram_stopped_and_once_that_it_beats_again_over_a_restart()
    {
        using var bench = new LogBench();
        bench.Plug("/bench/ttyUSB0");
        LogSettings settings = bench.Settings(LogBench.RamOn("/bench/ttyUSB0"));
        bench.Run(settings, TimeSpan.FromMinutes(60), (TimeSpan.FromMinutes(10), () => bench.Ram.Stopped = true));
        bench.Run(settings, TimeSpan.FromMinutes(20));
        bench.Run(settings, TimeSpan.FromMinutes(60), (TimeSpan.FromMinutes(1), () => bench.Ram.Stopped = false));
        StoredAlert alert = Assert.Single(AlertBook.Look(bench.Folder).Alerts);
        Assert.Equal((AlertKind.Stopped, "mill"), (alert.Kind, alert.Ram));
        Assert.InRange(alert.SinceUtc, Start.AddMinutes(20), Start.AddMinutes(25));
        Assert.Single(bench.News, n => n.Words.StartsWith("mill: it has stopped", StringComparison.Ordinal));
        Assert.Single(bench.News, n => n.Words.StartsWith("mill: it beats again", StringComparison.Ordinal));
    }

    private void Raise()
    {
        var book = AlertBook.Open(_folder.Path, out _);
        Assert.NotNull(book.Take("mill", new AlertReading(AlertKind.Stopped, Start, Standing.Beyond, 1, 1), Start, Units.Metric, ["command"]));
    }

    private static string Told(string readings)
    {
        var streak = new AlertStreak();
        string told = "";
        for (int i = 0; i < readings.Length; i++)
        {
            (streak, AlertChange change) = AlertJudge.Take(streak, Reading(readings[i], i));
            told += change switch { AlertChange.Raised => "R", AlertChange.Cleared => "C", _ => "" };
        }

        return told;
    }

    private static AlertReading Reading(char c, int i) => new(
        AlertKind.Irregular, Start.AddMinutes(15 * i), c switch { 'B' => Standing.Beyond, 'W' => Standing.Within, _ => Standing.Between }, 4, 4)
    {
        Value = new SeasonValue(0.2, null),
        Limit = 0.08,
    };

    private sealed class FailingWay : IWay
    {
        public string Name => "command";

        public bool IsDown { get; set; }

        public int Tries { get; private set; }

        public List<AlertMessage> Got { get; } = [];

        public Task Send(AlertMessage message, CancellationToken cancellation)
        {
            Tries++;
            if (IsDown)
            {
                throw new DeliveryException("nobody is there");
            }

            Got.Add(message);
            return Task.CompletedTask;
        }
    }
}
