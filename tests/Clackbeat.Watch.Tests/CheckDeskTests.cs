using System.Net.Http.Json;
using System.Text.Json;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Signal.HandTests;
using Clackbeat.Site.Check;
using Clackbeat.Watch.Checks;
using Clackbeat.Watch.Web;

namespace Clackbeat.Watch.Tests;

/// <summary>What is done by hand from the page: the guided test for leaks, and the newest minute as the baseline.</summary>
public sealed class CheckDeskTests
{
    [Fact]
    public async Task A_guided_test_waits_as_long_as_each_step_needs_and_reads_a_climb_as_a_leaking_delivery_valve()
    {
        var expected = ExpectedFigures.For(Rams.Site);
        var book = new Book { Newest = CheckSequence.Begin([new CauseOdds(Conditions.Healthy, 0.5), new CauseOdds(Conditions.DeliveryValveLeaking, 0.4)]) };
        var desk = new CheckDesk(Rams.Site, null, book, () => null);
        double at = 100;
        void Run(double seconds, Func<double, double> pressurePa)
        {
            for (double from = at; at < from + seconds; at += 0.01)
            {
                desk.Take(at, pressurePa(at - from));
            }
        }

        Run(5, _ => 0);
        Assert.Equal(HandTest.Shut, desk.State.Test!.Code);
        await desk.Begin();
        Run(4, _ => expected.StaticPa);
        desk.Next();
        Assert.Equal("hold", desk.State.Phase);
        Assert.InRange(desk.State.LeftS, 5.9, 6.1);
        Run(7, _ => expected.StaticPa);
        desk.Next();
        Assert.Equal("gate", desk.State.Phase);
        Run(31, t => expected.DeliveryPa - ((expected.DeliveryPa - expected.StaticPa) * Math.Exp(-t / 3)));
        desk.Next();
        Run(9, _ => 0);
        await Until(() => desk.State.Phase == CheckDesk.Idle);
        Assert.Equal("delivery-valve-leaks", desk.State.Reading!.Verdict);
        Assert.Same(desk.State.Reading, Assert.Single(book.Kept));
        Assert.True(desk.State.Sequence!.IsDecided);
        Assert.Equal(Conditions.DeliveryValveLeaking, desk.State.Sequence.Causes[0].Condition);
    }

    [Fact]
    public async Task A_test_that_needs_a_minute_before_says_what_it_lacks_and_one_that_was_broken_off_keeps_nothing()
    {
        var book = new Book();
        var desk = new CheckDesk(Rams.Site, null, book, () => null);
        await desk.Judge();
        Assert.Equal("check-run-not-judged", desk.State.Lack!.Code);
        await desk.Begin("vent");
        Assert.Equal((CheckDesk.Idle, "check-run-not-judged"), (desk.State.Phase, desk.State.Lack!.Code));
        await desk.Begin(HandTest.Level);
        Assert.Equal("hold", desk.State.Phase);
        desk.Cancel();
        Assert.Equal(CheckDesk.Idle, desk.State.Phase);
        Assert.Empty(book.Kept);
    }

    [Fact]
    public async Task The_newest_minute_becomes_the_baseline_with_one_click_once_it_has_beats_enough()
    {
        (double[] Times, double[] Pressures)? saved = null;
        await using WatchServer server = await WatchServer.Start(new WatchOptions
        {
            Site = Rams.Site,
            Source = new MadeUpSource(),
            Port = 0,
            SaveBaseline = (times, pressures) =>
            {
                saved = (times, pressures);
                return "my-ram.baseline.csv";
            },
            Checks = new Book(),
        });
        using var client = new HttpClient { BaseAddress = new Uri($"http://127.0.0.1:{server.Port}"), Timeout = TimeSpan.FromSeconds(30) };
        Assert.Equal("beats", (await Post(client, "/baseline", new { isWell = false })).GetProperty("lack").GetString());

        (double[] ramS, double[] ramPa) = Rams.Samples(40, rateHz: 500);
        server.Pipeline.Take(ramS, ramPa);
        JsonElement answer = await Post(client, "/baseline", new { isWell = true });
        Assert.Equal("my-ram.baseline.csv", answer.GetProperty("name").GetString());
        Assert.Equal(ramS.Length, saved!.Value.Times.Length);
        Assert.Contains("my-ram.baseline.csv", await client.GetStringAsync("/"), StringComparison.Ordinal);

        await Post(client, "/check/begin", new { test = "level" });
        await Until(() => server.Check!.State.Phase == "hold");
        JsonElement running = await client.GetFromJsonAsync<JsonElement>("/check");
        Assert.Equal(("hold", "level"), (running.GetProperty("phase").GetString(), running.GetProperty("test").GetProperty("code").GetString()));
        Assert.Equal("idle", (await Post(client, "/check/cancel", new { })).GetProperty("phase").GetString());
    }

    private static async Task Until(Func<bool> isSo)
    {
        for (int i = 0; i < 600 && !isSo(); i++)
        {
            await Task.Delay(50);
        }

        Assert.True(isSo());
    }

    private sealed class Book : ICheckBook
    {
        public List<HandReading> Kept { get; } = [];

        public CheckSequence? Newest { get; init; }

        public void Begin(CheckSequence sequence, string? record)
        {
        }

        public void Keep(HandReading reading, string? file) => Kept.Add(reading);
    }

    private static async Task<JsonElement> Post(HttpClient client, string address, object body)
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, address) { Content = JsonContent.Create(body) };
        request.Headers.Add("Origin", client.BaseAddress!.GetLeftPart(UriPartial.Authority));
        using HttpResponseMessage answer = await client.SendAsync(request);
        answer.EnsureSuccessStatusCode();
        return await answer.Content.ReadFromJsonAsync<JsonElement>();
    }
}
