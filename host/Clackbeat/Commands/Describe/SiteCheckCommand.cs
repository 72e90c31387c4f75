using System.CommandLine;
using Clackbeat.Frame;
using Clackbeat.Site.Check;
using Clackbeat.Site.Files;
using Clackbeat.Words;

namespace Clackbeat.Commands.Describe;

/// <summary><c>site check FILE</c></summary>
internal static class SiteCheckCommand
{
    /// <summary>Creates the command.</summary>
    public static Command Create(Session session)
    {
        var file = new Argument<string>("FILE") { Description = "The site file to check" };
        Option<bool> json = CommonOptions.Json();
        var command = new ExampleCommand(
            "check",
            "Say what a site file lacks or contradicts, and what to expect of the ram it describes",
            "site check my-ram.toml",
            "site check my-ram.toml --json")
        {
            file, json,
        };
        command.SetAction(line => Run(session, line.GetRequiredValue(file), line.GetValue(json)));
        return command;
    }

    private static int Run(Session session, string path, bool asJson)
    {
        SiteReading reading = SiteFile.Read(path);
        var check = SiteCheck.Of(reading);
        if (asJson)
        {
            JsonOut.Write(session, SiteCheckJson.Of(path, check));
        }
        else if (check.Site is not null)
        {
            SiteCheckText.Write(session, check);
        }

        if (check.Problems.Count == 0)
        {
            return ExitCode.Done;
        }

        session.Say(Catalogue.Current.Say(SiteProblem.Summary(path, check.Problems)));
        return ExitCode.WrongInput;
    }
}
