using System.CommandLine;
using Clackbeat.Commands.Analyse;
using Clackbeat.Frame;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.HandTests;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;
using Clackbeat.Words;

namespace Clackbeat.Commands.Check;

/// <summary><c>check plan INPUT</c>: the cheapest test that decides between what a record leaves open.</summary>
internal static class CheckPlanCommand
{
    /// <summary>Creates the command.</summary>
    public static Command Create(Session session)
    {
        var input = new RecordInput();
        Option<string?> site = RecordSite.Option();
        var all = new Option<bool>("--all") { Description = "Show every test, not only the one that decides" };
        var command = new ExampleCommand(
            "plan",
            "Judge a record and propose the cheapest test by hand that decides what it leaves open",
            "check plan monday.csv --site my-ram.toml",
            "check plan monday.csv --site my-ram.toml --all");
        input.AddTo(command);
        command.Add(site);
        command.Add(all);
        command.MayEndWith(ExitCode.DonePartly);
        command.SetAction(line =>
        {
            RamSite ram = RecordSite.Of(line.GetValue(site), line.GetRequiredValue(input.Input));
            (RamAnalysis analysis, RamAnalysis? _) = input.Analyse(session, line, ram, line.GetValue(site));
            FindingsText.Write(session, analysis.Diagnosis);
            HandTest? decisive = CheckSequence.Begin(analysis)?.Next;
            session.Out.WriteLine();
            Layout.Paragraph(session, Catalogue.Current.Say(decisive is null ? Fact.Of("check-plan-clear") : Fact.Of("check-plan-decides")));
            foreach (HandTest test in line.GetValue(all) ? HandTest.All : decisive is null ? [] : [decisive])
            {
                CheckTalk.Test(session, test);
                session.Out.WriteLine("  " + CheckTalk.Command(test, line.GetValue(site) ?? Phrases.Say("check-run.site"), null, line.GetRequiredValue(input.Input)));
            }

            return RecordInput.Outcome(session, analysis);
        });
        return command;
    }
}
