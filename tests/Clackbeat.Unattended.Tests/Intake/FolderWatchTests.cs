using Clackbeat.Unattended.Intake;
using Clackbeat.Unattended.Surroundings;
using Clackbeat.Unattended.Tests.Bench;

namespace Clackbeat.Unattended.Tests.Intake;

/// <summary>A folder into which others put files, slowly, twice, and wrong ones.</summary>
public sealed class FolderWatchTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();
    private readonly BenchClock _clock = new(LogBench.Start);
    private readonly List<string> _taken = [];
    private readonly List<LogNews> _news = [];
    private FolderWatch _watch;

    public FolderWatchTests() => _watch = Make();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void A_file_is_taken_once_it_has_stopped_growing()
    {
        File.WriteAllText(_folder["a.csv"], "one");
        Pass(5);
        File.AppendAllText(_folder["a.csv"], " two");
        Pass(5);
        Pass(5);
        Assert.Empty(_taken);
        Pass(6);
        Pass(60);
        Assert.Equal(["one two"], _taken);

        // It goes on after all: the store knows a recording that grew.
        File.AppendAllText(_folder["a.csv"], " three");
        Pass(1);
        Pass(11);
        Assert.Equal(["one two", "one two three"], _taken);
    }

    [Fact]
    public void What_was_taken_is_known_after_a_restart_and_under_another_name()
    {
        File.WriteAllText(_folder["a.csv"], "one");
        Settle();
        File.AppendAllText(_folder[".clackbeat-taken"], "half a li");
        File.Copy(_folder["a.csv"], _folder["copy of a.csv"]);
        _watch = Make();
        Settle();
        File.WriteAllText(_folder["b.csv"], "two");
        Settle();
        _watch = Make();
        Settle();
        Assert.Equal(["one", "two"], _taken);
        Assert.Contains(_news, n => !n.IsTrouble && n.Words.Contains("as a.csv", StringComparison.Ordinal));
    }

    [Fact]
    public void What_cannot_be_used_is_moved_aside_with_the_reason()
    {
        File.WriteAllText(_folder["bad.csv"], "bad");
        File.WriteAllText(_folder["good.csv"], "good");
        Settle();
        File.WriteAllText(_folder["bad.csv"], "bad");
        Settle();
        Assert.Equal(["good"], _taken);
        Assert.False(File.Exists(_folder["bad.csv"]));
        Assert.Equal("bad", File.ReadAllText(_folder["unreadable/bad-2.csv"]));
        Assert.Equal("no table\n", File.ReadAllText(_folder["unreadable/bad.csv.why.txt"]));
    }

    [Fact]
    public void What_may_pass_is_told_once_and_tried_again()
    {
        File.WriteAllText(_folder["later.csv"], "later");
        Settle();
        Pass(20);
        Assert.Empty(_taken);
        Assert.Contains("the server doesn't answer", Assert.Single(_news).Words, StringComparison.Ordinal);
        _isAway = false;
        Pass(20);
        Assert.Equal(["later"], _taken);
    }

    [Theory]
    [InlineData(".hidden")]
    [InlineData("a.csv.part")]
    [InlineData("empty")]
    public void Unfinished_and_hidden_files_are_left_alone(string name)
    {
        File.WriteAllText(_folder[name], name == "empty" ? "" : "one");
        Settle();
        Assert.Empty(_taken);
        Assert.True(File.Exists(_folder[name]));
    }

    private bool _isAway = true;

    private FolderWatch Make() => new(_folder.Path, Take, _clock, _news.Add);

    private string? Take(string file)
    {
        string text = File.ReadAllText(file);
        if (text == "bad")
        {
            return "no table";
        }

        if (text == "later" && _isAway)
        {
            throw new IOException("the server doesn't answer");
        }

        _taken.Add(text);
        return null;
    }

    private void Settle()
    {
        Pass(1);
        Pass(11);
    }

    private void Pass(double seconds)
    {
        _clock.Advance(TimeSpan.FromSeconds(seconds));
        _watch.Look(CancellationToken.None);
    }
}
