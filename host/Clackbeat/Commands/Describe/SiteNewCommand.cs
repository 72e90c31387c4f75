using System.CommandLine;
using Clackbeat.Frame;
using Clackbeat.Site.Files;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;

namespace Clackbeat.Commands.Describe;

/// <summary><c>site new FILE</c></summary>
internal static class SiteNewCommand
{
    /// <summary>Creates the command.</summary>
    public static Command Create(Session session)
    {
        var file = new Argument<string>("FILE") { Description = "The site file to write" };
        var us = new Option<bool>("--us") { Description = "Use feet, inches, psi and °F instead of metric units" };
        Option<bool> overwrite = CommonOptions.Overwrite();
        var command = new ExampleCommand(
            "new",
            "Write a site file with every key explained, ready to be filled in",
            "site new my-ram.toml",
            "site new my-ram.toml --us")
        {
            file, us, overwrite,
        };
        command.SetAction(line =>
        {
            string? path = line.GetRequiredValue(file);
            OutputFile.WriteText(path, SiteTemplate.Text(line.GetValue(us) ? Units.Us : Units.Metric), line.GetValue(overwrite));
            session.Say(Phrases.Say("wrote.site", ("file", path)));
            return ExitCode.Done;
        });
        return command;
    }
}
