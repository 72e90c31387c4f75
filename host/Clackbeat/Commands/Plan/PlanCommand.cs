using System.CommandLine;
using Clackbeat.Frame;
using Clackbeat.Planning.Plans;
using Clackbeat.Report.Export;
using Clackbeat.Report.Planned;
using Clackbeat.Site.Quantities;
using Clackbeat.Watch.Plans;
using Clackbeat.Words;

namespace Clackbeat.Commands.Plan;

/// <summary><c>plan</c>: from a spring, a slope and a need to rams, pipes and what they give.</summary>
internal static class PlanCommand
{
    private const int UsualPort = 8080;

    /// <summary>Creates the command.</summary>
    public static Command Create(Session session)
    {
        var options = new PlanOptions();
        var output = new Option<string>("--out") { Description = "Write the plan as a page, .html or .pdf", HelpName = "FILE" };
        var siteOut = new Option<string>("--site-out") { Description = "Write the best choice as a site file, for site check, simulate and what-if", HelpName = "FILE.toml" };
        var page = new Option<bool>("--page") { Description = "Ask and answer on a page in the browser of this computer" };
        var http = new Option<int>("--http") { Description = "Port of the page", DefaultValueFactory = _ => UsualPort };
        Option<bool> overwrite = CommonOptions.Overwrite();
        Option<bool> json = CommonOptions.Json();
        var command = new ExampleCommand(
            "plan",
            "Plan a ram from a spring: how many, which pipes, how much water, and what else could lift it. "
            + "Exit code 0: a plan; 2: no ram can do it, and the reason",
            "plan --supply-head \"3 m\" --supply-flow \"60 L/min\" --lift \"25 m\"",
            "plan --supply-head \"10 ft\" --supply-flow \"12 gpm\" --dry-flow \"6 gpm\" --lift \"85 ft\" --need \"800 gal/day\" --ram-kind cast --us",
            "plan --supply-head \"3 m\" --supply-flow \"60 L/min\" --lift \"25 m\" --use person=24 --use dairy-cow=6 --site-out my-ram.toml",
            "plan --page");
        options.AddTo(command);
        foreach (Option option in (Option[])[output, siteOut, page, http, overwrite, json])
        {
            command.Add(option);
        }

        command.Add(EnoughCommand.Create(session));
        command.SetAction(line => line.GetValue(page)
            ? Serve(session, line.GetValue(http), options.UnitsOf(line))
            : Answer(session, line));
        return command;

        int Answer(Session session, ParseResult line)
        {
            RamPlan plan = Planner.Of(options.Read(line));
            Units units = options.UnitsOf(line);
            if (line.GetValue(json))
            {
                JsonOut.Write(session, PlanJson.Of(plan));
            }

            if (plan.Refusal is { } refusal)
            {
                session.Error.WriteLine(PlanWords.Say(refusal, units));
                return ExitCode.WrongInput;
            }

            if (line.GetValue(siteOut) is { } path)
            {
                OutputFile.WriteText(path, plan.Choices[0].SiteText, line.GetValue(overwrite));
                session.Say(Phrases.Say("plan.site-written", ("path", path)));
            }

            if (line.GetValue(output) is { } written)
            {
                ReportFormat format = ReportFormats.FromPath(written);
                using var file = OutputFile.Create(written, line.GetValue(overwrite));
                PlanReportWriter.Write(file.Stream, format, plan, units, DateTimeOffset.Now);
                file.Commit();
                session.Say(Phrases.Say("plan.written", ("path", file.Path)));
            }

            if (!line.GetValue(json))
            {
                PlanText.Write(session, plan, units);
            }

            return ExitCode.Done;
        }
    }

    private static int Serve(Session session, int port, Units units)
    {
        PlanServer server = PlanServer.Start(port, units, Catalogue.Current, session.Stop).GetAwaiter().GetResult();
        return ServedPage.Run(session, server, server.Port);
    }
}
