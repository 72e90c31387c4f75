namespace Clackbeat.Fuzz;

/// <summary>
/// Whatever bytes come, each reader gives a result or refuses them in words, within bounds of time and memory. The same
/// inputs in every run; hours of other ones are a command (docs/hardening.md).
/// </summary>
public class ShortFuzzTests
{
    private const int Seed = 20_261_125;

    public static TheoryData<string> Targets => [.. Target.All.Select(t => t.Name)];

    [Theory]
    [MemberData(nameof(Targets))]
    public void Its_seeds_and_all_that_once_broke_it_no_longer_do(string name)
    {
        var target = Target.Of(name);
        Assert.All(Seeds.Of(target), input => Watchdog.Run(target, input));
    }

    [Theory]
    [MemberData(nameof(Targets))]
    public void Changed_seeds_never_break_it(string name)
    {
        var target = Target.Of(name);
        IReadOnlyList<byte[]> seeds = Seeds.Of(target);
        var mutator = new Mutator(Seed);
        for (int i = 0; i < target.ShortExecutions; i++)
        {
            byte[] input = mutator.Change(mutator.Pick(seeds), mutator.Pick(seeds), target.LongestBytes);
            Exception? broken = Record.Exception(() => Watchdog.Run(target, input));
            Assert.True(broken is null, $"input {i}, {Convert.ToBase64String(input)}: {broken}");
        }
    }
}
