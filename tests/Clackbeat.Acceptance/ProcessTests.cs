namespace Clackbeat.Acceptance;

/// <summary>The same program as a process of its own: what only a real start can show.</summary>
public sealed class ProcessTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void The_executable_answers_by_its_small_name()
    {
        var version = Outcome.OfProcess("--version");
        Assert.Equal((0, ""), (version.ExitCode, version.Error));
        Assert.Equal(Outcome.Of("--version").Out.Trim(), version.Out.Trim());
    }

    [Fact]
    public void Results_and_words_about_the_work_go_to_different_streams()
    {
        var made = Outcome.OfProcess("site", "new", _folder["räm °.toml"]);
        Assert.Equal((0, ""), (made.ExitCode, made.Out));
        Assert.Contains("räm °.toml", made.Error, StringComparison.Ordinal);
        var check = Outcome.OfProcess("site", "check", _folder["räm °.toml"]);
        Assert.Equal((0, ""), (check.ExitCode, check.Error));
        Assert.Contains("Fernhollow", check.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void A_wrong_file_ends_with_2_and_no_stack_trace()
    {
        File.WriteAllText(_folder["bad.toml"], "[suply]\nhead = 2.5 m\n");
        var check = Outcome.OfProcess("site", "check", _folder["bad.toml"]);
        Assert.Equal((2, ""), (check.ExitCode, check.Out));
        Assert.Contains("line 2", check.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", check.Error, StringComparison.Ordinal);
    }
}
