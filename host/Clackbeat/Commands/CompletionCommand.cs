using System.CommandLine;
using Clackbeat.Frame;
using Clackbeat.Site;

namespace Clackbeat.Commands;

/// <summary>completion: a script with which a shell completes commands and options.</summary>
internal static class CompletionCommand
{
    // Each asks the program itself, through the directive that its command-line library answers.
    private const string Bash =
        """
        _clackbeat() {
            local IFS=$'\n' line="${COMP_LINE#* }"
            COMPREPLY=( $(compgen -W "$(clackbeat "[suggest:$((COMP_POINT - ${#COMP_LINE} + ${#line}))]" "$line" 2>/dev/null)" -- "${COMP_WORDS[COMP_CWORD]}") )
        }
        complete -o default -F _clackbeat clackbeat
        """;

    private const string Zsh =
        """
        _clackbeat() {
            local line="${BUFFER#* }"
            local -a found=("${(@f)$(clackbeat "[suggest:${#line}]" "$line" 2>/dev/null)}")
            compadd -- $found || _files
        }
        compdef _clackbeat clackbeat
        """;

    private const string PowerShell =
        """
        Register-ArgumentCompleter -Native -CommandName clackbeat -ScriptBlock {
            param($word, $line, $position)
            $rest = "$line" -replace '^\S+\s?', ''
            $at = $position - ("$line".Length - $rest.Length)
            clackbeat "[suggest:$at]" "$rest" | ForEach-Object { [System.Management.Automation.CompletionResult]::new($_) }
        }
        """;

    public static ExampleCommand Create(Session session)
    {
        var shell = new Argument<string>("SHELL") { Description = "bash, zsh or pwsh" };
        var command = new ExampleCommand(
            "completion", "Print a script with which the shell completes commands and options",
            "completion bash >> ~/.bashrc", "completion zsh >> ~/.zshrc", "completion pwsh >> $PROFILE") { shell };
        command.SetAction(line =>
        {
            session.Out.WriteLine(line.GetRequiredValue(shell) switch
            {
                "bash" => Bash,
                "zsh" => Zsh,
                "pwsh" => PowerShell,
                var other => throw InputException.Of("option.no-shell", ("shell", other)),
            });
            return ExitCode.Done;
        });
        return command;
    }
}
