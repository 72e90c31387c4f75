using Clackbeat.Commands;
using Clackbeat.Frame;
using Clackbeat.Words;

namespace Clackbeat.Acceptance;

public class CommandLineTests
{
    [Fact]
    public void Help_goes_to_the_results_and_ends_well()
    {
        var help = Outcome.Of("--help");
        Assert.Equal((0, ""), (help.ExitCode, help.Error));
        Assert.Contains("hydraulic ram", help.Out, StringComparison.Ordinal);
        Assert.Contains("site", help.Out, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("site", "new")]
    [InlineData("site", "check")]
    public void The_help_of_a_command_ends_with_an_example(params string[] command)
    {
        var help = Outcome.Of([.. command, "--help"]);
        Assert.Equal(0, help.ExitCode);
        Assert.Contains($"  clackbeat {string.Join(' ', command)} my-ram.toml", help.Out, StringComparison.Ordinal);
        Assert.All(help.Out.Split('\n'), line => Assert.True(line.TrimEnd().Length <= 80, line));
    }

    [Fact]
    public void Every_command_has_a_description_and_an_example()
    {
        string? list = Outcome.Of("--help").Out;
        IEnumerable<string> commands = list[list.IndexOf("Commands:", StringComparison.Ordinal)..].Split('\n').Skip(1)
            .Where(line => line.StartsWith("  ", StringComparison.Ordinal) && line.Length > 2 && line[2] != ' ')
            .Select(line => line.Trim().Split(' ')[0].TrimEnd(','));
        Assert.All(commands, name => Assert.Contains("Example", Outcome.Of(name, "--help").Out, StringComparison.Ordinal));
    }

    [Fact]
    public void Each_command_is_found_by_all_of_its_names_before_it_is_made() =>
        Assert.All(CommandList.Named(Session.OnStreams(TextWriter.Null, TextWriter.Null, CancellationToken.None)), command =>
            Assert.Equal(command.Made.Aliases.Prepend(command.Made.Name).Distinct().Order(StringComparer.Ordinal), command.Names.Order(StringComparer.Ordinal)));

    [Fact]
    public void A_sub_command_shows_no_argument_of_the_command_above_but_the_store_that_all_of_trend_share()
    {
        Assert.DoesNotContain("INPUT", Outcome.Of("log", "new", "--help").Out, StringComparison.Ordinal);
        Assert.Contains("trend [<STORE>] report", Outcome.Of("trend", "report", "--help").Out, StringComparison.Ordinal);
    }

    [Fact]
    public void The_american_spelling_is_the_same_command() =>
        Assert.Equal(Outcome.Of("analyse", "no-such.csv", "--site", "none.toml").Error, Outcome.Of("analyze", "no-such.csv", "--site", "none.toml").Error);

    [Theory]
    [InlineData("bash")]
    [InlineData("zsh")]
    [InlineData("pwsh")]
    public void Completion_is_a_script_that_asks_the_program(string shell)
    {
        var script = Outcome.Of("completion", shell);
        Assert.Equal(0, script.ExitCode);
        Assert.Contains("[suggest:", script.Out, StringComparison.Ordinal);
        Assert.Equal(2, Outcome.Of("completion", "fish").ExitCode);
        string[] offered = Outcome.Of("[suggest:2]", "ca").Out.Split('\n', StringSplitOptions.TrimEntries);
        Assert.Contains("calibrate", offered);
        Assert.DoesNotContain("tune", offered);
    }

    [Fact]
    public void A_word_where_a_number_belongs_is_told_without_a_programmers_word()
    {
        var outcome = Outcome.Of("simulate", "--site", "ram.toml", "--severity", "strong", "--out", "a.csv");
        Assert.Equal(2, outcome.ExitCode);
        Assert.Contains("no number", outcome.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("System.", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void The_version_is_a_number_with_its_commit() =>
        Assert.Matches(@"^\d+\.\d+\.\d+\+([0-9a-f]{12}|no-commit)\s*$", Outcome.Of("--version").Out);

    // The forms that the SDK writes: item 10 of Semantic Versioning, and the version alone where the sources have no history.
    [Theory]
    [InlineData("0.1.0+0163026c0de5f00d0163026c0de5f00d01630263", "0.1.0+0163026c0de5")]
    [InlineData("0.1.0", "0.1.0+no-commit")]
    public void A_build_without_history_says_so(string built, string shown) => Assert.Equal(shown, ProgramVersion.Shown(built));

    [Fact]
    public void The_licences_begin_with_our_own_and_both_spellings_give_them()
    {
        var licences = Outcome.Of("licences");
        Assert.Equal(0, licences.ExitCode);
        Assert.StartsWith(File.ReadAllText(Path.Combine(Repository.Root, "LICENSE"))[..20], licences.Out, StringComparison.Ordinal);
        Assert.Equal(licences.Out, Outcome.Of("licenses").Out);
    }

    [Theory]
    [InlineData("siet", "Did you mean 'site'?")]
    [InlineData("site chek", "Did you mean 'check'?")]
    [InlineData("site check ram.toml --jsn", "Did you mean '--json'?")]
    [InlineData("site new --uss", "Did you mean '--us'?")]
    [InlineData("site check", "'FILE' missing")]
    [InlineData("site check a.toml b.toml", "knows no word 'b.toml'")]
    [InlineData("log monday.cbrec new log.toml", "'clackbeat log new' knows no word 'monday.cbrec'")]
    public void A_mistyped_command_line_is_explained(string commandLine, string said)
    {
        var outcome = Outcome.Of(commandLine.Split(' '));
        Assert.Equal((2, ""), (outcome.ExitCode, outcome.Out));
        Assert.Contains(said, outcome.Error, StringComparison.Ordinal);
        Assert.Contains("--help", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_command_left_open_shows_the_help_as_a_mistake()
    {
        var outcome = Outcome.Of("site");
        Assert.Equal((2, ""), (outcome.ExitCode, outcome.Out));
        Assert.Contains("Commands:", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_start_without_a_word_names_the_commands_to_try_first()
    {
        var outcome = Outcome.Of();
        Assert.Equal((2, ""), (outcome.ExitCode, outcome.Out));
        Assert.All(FirstSteps.Steps, step => Assert.Contains($"  clackbeat {step.Command}\n", outcome.Error.ReplaceLineEndings("\n"), StringComparison.Ordinal));
        Assert.Contains("clackbeat --help", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void The_first_steps_are_commands_that_the_help_shows_as_examples()
    {
        Assert.InRange(FirstSteps.Steps.Count, 3, 4);
        Assert.All(FirstSteps.Steps, step =>
        {
            string help = Outcome.Of([.. step.Command.Split(' ').TakeWhile(w => w is not ("virtual" or "my-ram.toml" or "monday.csv")), "--help"]).Out;
            Assert.Contains($"  clackbeat {step.Command}\n", help.ReplaceLineEndings("\n"), StringComparison.Ordinal);
        });
    }

    [Theory]
    [InlineData("en")]
    [InlineData("es")]
    [InlineData("fr")]
    [InlineData("pt")]
    public void The_first_steps_fit_a_terminal_in_every_language(string language)
    {
        using var text = new StringWriter();
        using (Catalogue.Use(Catalogue.Find(language)!))
        {
            FirstSteps.Write(text);
        }

        Assert.All(text.ToString().Split('\n'), line => Assert.True(line.TrimEnd().Length <= 80, line));
    }
}
