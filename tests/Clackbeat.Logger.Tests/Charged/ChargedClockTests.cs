using Xunit.Abstractions;

namespace Clackbeat.Logger.Tests.Charged;

/// <summary>
/// The logger behind a clock that is charged with every instruction, conversion and sector: what a slow board does to a
/// record. The true interpreter is not here; these runs say what the program's own work allows.
/// </summary>
public sealed class ChargedClockTests(ITestOutputHelper output) : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("clackbeat-charged").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    // 1.25 µs an instruction and 200 µs a conversion are the slow end of what the runtime's sources let one expect.
    [Fact]
    public void TenMinutesAtOneKilohertzLoseNothingOnAnOrdinaryBoard()
    {
        Outcome run = Stream(1.25, 200, 600);
        Assert.Equal(0, run.Lost);
        Assert.InRange(run.Samples, 598_000, 600_000);
        AssertAllTold(run);
    }

    [Theory]
    [InlineData(1.5)]
    [InlineData(1.75)]
    [InlineData(2.0)]
    public void ASlowBoardLosesFewSamplesTellsThemAllAndTimesTheRestRight(double instructionUs)
    {
        Outcome run = Stream(instructionUs, 150, 60);
        Assert.True(run.Lost < 0.05 * run.Points, $"{run.Lost} of {run.Points} lost");
        AssertAllTold(run);
    }

    // Twice too slow for 1 kHz: far more is lost, but it is a record of true samples and not a heap of errors.
    [Fact]
    public void ABoardThatCannotKeepUpStillTellsEveryPointAndTimesEverySample()
    {
        Outcome run = Stream(4, 200, 30);
        Assert.True(run.Samples > 0.1 * run.Points, $"{run.Samples} of {run.Points} taken");
        AssertAllTold(run);
    }

    // By the sector: 0.5 ms is a good card, 5 ms a bad one. With every frame a write of its own 37 % were lost at 5 ms.
    [Theory]
    [InlineData(500, 0.02)]
    [InlineData(2000, 0.05)]
    [InlineData(5000, 0.10)]
    public void ASlowCardCostsFewSamplesAndNoBurst(double sectorUs, double mostLost)
    {
        var run = Outcome.Of(MeteredBuild.Call<long[]>(typeof(Scenarios), nameof(Scenarios.Burst), _folder, 1.25, 150.0, sectorUs));
        output.WriteLine($"{sectorUs} µs a sector: {run}");
        Assert.Equal(1, run.Last);
        Assert.True(run.Lost < mostLost * run.Points, $"{run.Lost} of {run.Points} lost");
        AssertAllTold(run);
    }

    private Outcome Stream(double instructionUs, double conversionUs, double lengthS)
    {
        var run = Outcome.Of(MeteredBuild.Call<long[]>(
            typeof(Scenarios), nameof(Scenarios.Stream), instructionUs, conversionUs, lengthS));
        output.WriteLine($"{instructionUs} µs an instruction, {conversionUs} µs a conversion, {lengthS} s: {run}");
        return run;
    }

    // A sample is converted within 100 µs after the time it states, at every charge here: some 25 instructions of 4 µs lie
    // between. The fault of old was 700 to 800 µs, after a skip.
    private static void AssertAllTold(Outcome run)
    {
        // The last sample may be late by nearly a whole period, and the first one too: the points between them are known to
        // one. Points that are told to be lost before the first sample or behind the last are none of these.
        Assert.InRange(run.Samples + run.Lost, run.Points - 1, run.Points + 10);
        Assert.InRange(run.LagUs, 0, 100);
    }

    private sealed record Outcome(long Samples, long Lost, long Points, long LagUs, long Last)
    {
        public static Outcome Of(long[] run) => new(run[0], run[1], run[2], run[3], run[4]);
    }
}
