using System.Globalization;
using System.Net;
using Clackbeat.Watch.Overview;
using Xunit.Abstractions;

namespace Clackbeat.Watch.Tests;

/// <summary>
/// What three people ask of the page of all rams in a month, one question each five minutes, as fast as it answers. It must not grow: neither
/// by questions that are all different, nor by wrong ones.
/// </summary>
[Collection(nameof(Alone))]
public sealed class OverviewMonthTests(ITestOutputHelper told)
{
    private const long MostGrowthBytes = 1_000_000;

    private static readonly int Questions = Environment.GetEnvironmentVariable("CLACKBEAT_LONG") == "1" ? 3 * 30 * 24 * 12 : 600;

    private static readonly string[] Languages = ["en", "es", "fr", "pt"];

    [Fact]
    public async Task A_month_of_questions_leaves_the_server_as_large_as_it_was()
    {
        await using OverviewServer server = await TwoRams.Serve();
        using var client = new HttpClient { BaseAddress = new Uri($"http://127.0.0.1:{server.Port}") };
        long afterAThird = 0;
        for (int i = 0; i < Questions; i++)
        {
            string name = i.ToString(CultureInfo.InvariantCulture);
            (string address, HttpStatusCode expected) = (i % 4) switch
            {
                0 => ($"/?language={Languages[i / 4 % Languages.Length]}&units=us", HttpStatusCode.OK),
                1 => ($"/?find={name}", HttpStatusCode.OK),
                2 => ("/season/report?ram=Mill", HttpStatusCode.OK),
                _ => ($"/season/report?ram={name}", HttpStatusCode.NotFound),
            };
            using HttpResponseMessage answer = await client.GetAsync(address);
            Assert.Equal(expected, answer.StatusCode);
            await answer.Content.ReadAsByteArrayAsync();
            if (i == Questions / 3)
            {
                afterAThird = Held();
            }
        }

        long atTheEnd = Held();
        told.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{Questions} questions; held after a third {afterAThird / 1e6:0.00} MB, at the end {atTheEnd / 1e6:0.00} MB"));
        Assert.True(atTheEnd < afterAThird + MostGrowthBytes, $"{afterAThird} bytes were held after a third of the questions, {atTheEnd} at the end");
    }

    private static long Held()
    {
        GC.Collect();
        GC.WaitForPendingFinalizers();
        return GC.GetTotalMemory(forceFullCollection: true);
    }
}

/// <summary>Memory is that of the whole process: beside others, theirs would be counted too.</summary>
[CollectionDefinition(nameof(Alone), DisableParallelization = true)]
public sealed class Alone;
