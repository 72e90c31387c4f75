using System.Security.Cryptography;
using System.Text.Json.Nodes;
using Clackbeat.Season.Store;
using Clackbeat.Signal.States;

namespace Clackbeat.Acceptance;

/// <summary><c>plan enough</c> on a store of a year whose water is known: 3 L/min, half of that in August, and two stopped weeks in July.</summary>
public sealed class PlanEnoughTests : IDisposable
{
    private const string Ram = "the ram at the mill";
    private static readonly DateTime NewYear = new(2025, 1, 1, 0, 0, 0, DateTimeKind.Local);

    private readonly TemporaryFolder _folder = new();
    private readonly string _store;

    public PlanEnoughTests()
    {
        _store = _folder["season.db"];
        Fill(_store, 365);
    }

    public void Dispose() => _folder.Dispose();

    // By hand: 3 L/min are 4320 L a day; August brings 2160. In July it stands from the 1st to the 14th, so 17 of 31 days run: 2369 L a day.
    // 3000 L a day are needed, more than July and August bring with their ± of 5 %, and less than every other month does.
    [Fact]
    public void The_months_are_those_of_the_store_and_the_dry_ones_are_named()
    {
        JsonNode told = JsonNode.Parse(Outcome.Of("plan", "enough", _store, "--need", "3000 L/day", "--json").Out)!;
        double[] months = [.. told["months"]!.AsArray().Select(m => (double)m!["delivered_l_per_day"]!["value"]!)];
        Assert.InRange(months[0], 4295, 4345);
        Assert.InRange(months[6], 2309, 2429);
        Assert.InRange(months[7], 2100, 2220);
        Assert.Equal([7, 8], told["enough"]!["short_months"]!.AsArray().Select(m => (int)m!));

        // July lacks 631 L a day and August 840: 45.6 m³. At 2 % of a year's 1095 m³ unmet, 21.9, the tank covers the other 23.7.
        Assert.InRange((double)told["enough"]!["tank_m3"]!, 21, 27);

        string screen = Outcome.Of("plan", "enough", _store, "--need", "3000 L/day").Out.ReplaceLineEndings(" ");
        Assert.Contains("too little in 2 months: July, August", screen, StringComparison.Ordinal);
        Assert.Contains("The least came in August", screen, StringComparison.Ordinal);
    }

    [Fact]
    public void A_year_with_a_month_missing_sizes_no_tank_and_says_so()
    {
        string half = _folder["half.db"];
        Fill(half, 181);
        var told = Outcome.Of("plan", "enough", half, "--need", "3000 L/day");
        Assert.Equal(0, told.ExitCode);
        Assert.Contains("no record of 6 months: July, August", told.Out.ReplaceLineEndings(" "), StringComparison.Ordinal);
        Assert.DoesNotContain("storage tank of", told.Out, StringComparison.Ordinal);
    }

    private static void Fill(string path, int days)
    {
        using ISeasonStore open = SeasonStores.Open(path, create: true);
        open.Add([.. Enumerable.Range(0, days * 12).Select(Burst)]);
    }

    private static SeasonBurst Burst(int index)
    {
        DateTime at = NewYear.AddHours(2 * index);
        double flow = (at.Month == 8 ? 1.5 : 3) / 6e4;
        bool stands = at is { Month: 7, Day: <= 14 };
        return new SeasonBurst
        {
            Ram = Ram,
            SourceHash = SHA256.HashData(BitConverter.GetBytes(index)),
            Source = "made up",
            StartUtc = new DateTimeOffset(at),
            DurationS = 60,
            State = stands ? RamState.StoppedShut : RamState.Beating,
            Figures = stands
                ? new Dictionary<SeasonFigure, SeasonValue>()
                : new Dictionary<SeasonFigure, SeasonValue> { [SeasonFigure.Delivered] = new(flow, 0.05 * flow) },
        };
    }
}
