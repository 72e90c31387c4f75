using System.Net.Http.Json;
using System.Text.Json;
using Clackbeat.Signal.HandTests;
using Clackbeat.Site.Check;
using Clackbeat.Watch.Checks;
using Clackbeat.Watch.Web;

namespace Clackbeat.Watch.Tests;

/// <summary>What is done by hand from the page: the guided test for leaks, and the newest minute as the baseline.</summary>
public sealed class CheckDeskTests
{
    [Fact]
    public void A_guided_test_waits_as_long_as_each_step_needs_and_reads_a_climb_as_a_leaking_delivery_valve()
    {
        var expected = ExpectedFigures.For(Rams.Site);
        (ShutResult Result, string? File)? kept = null;
        var desk = new CheckDesk(Rams.Site, null, (result, file) => kept = (result, file));
        double at = 100;
        void Run(double seconds, Func<double, double> pressurePa)
        {
            for (double from = at; at < from + seconds; at += 0.01)
            {
                desk.Take(at, pressurePa(at - from));
            }
        }

        Run(5, _ => 0);
        desk.Begin();
        Run(4, _ => expected.StaticPa);
        desk.Next();
        Assert.Equal(CheckPhase.Hold, desk.State.Phase);
        Assert.InRange(desk.State.LeftS, 5.9, 6.1);
        Run(7, _ => expected.StaticPa);
        desk.Next();
        Assert.Equal(CheckPhase.Gate, desk.State.Phase);
        Run(31, t => expected.DeliveryPa - ((expected.DeliveryPa - expected.StaticPa) * Math.Exp(-t / 3)));
        desk.Next();
        Run(9, _ => 0);
        Assert.Equal(CheckPhase.Done, desk.State.Phase);
        Assert.Equal(ShutVerdict.DeliveryValveLeaks, desk.State.Result!.Verdict);
        Assert.Same(desk.State.Result, kept!.Value.Result);
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
            KeepCheck = (_, _) => { },
        });
        using var client = new HttpClient { BaseAddress = new Uri($"http://127.0.0.1:{server.Port}"), Timeout = TimeSpan.FromSeconds(30) };
        Assert.Equal("beats", (await Post(client, "/baseline", new { isWell = false })).GetProperty("lack").GetString());

        (double[] ramS, double[] ramPa) = Rams.Samples(40, rateHz: 500);
        server.Pipeline.Take(ramS, ramPa);
        JsonElement answer = await Post(client, "/baseline", new { isWell = true });
        Assert.Equal("my-ram.baseline.csv", answer.GetProperty("name").GetString());
        Assert.Equal(ramS.Length, saved!.Value.Times.Length);
        Assert.Contains("my-ram.baseline.csv", await client.GetStringAsync("/"), StringComparison.Ordinal);

        Assert.Equal("hold", (await Post(client, "/check/begin", new { })).GetProperty("phase").GetString());
        Assert.Equal("idle", (await Post(client, "/check/cancel", new { })).GetProperty("phase").GetString());
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
