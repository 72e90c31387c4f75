using System.CommandLine;
using Clackbeat.Commands.Analyse;
using Clackbeat.Commands.Capture;
using Clackbeat.Commands.Check;
using Clackbeat.Commands.Describe;
using Clackbeat.Commands.Guide;
using Clackbeat.Commands.Log;
using Clackbeat.Commands.Overview;
using Clackbeat.Commands.Plan;
using Clackbeat.Commands.Rate;
using Clackbeat.Commands.Simulate;
using Clackbeat.Commands.Trend;
using Clackbeat.Commands.Tune;
using Clackbeat.Commands.Watch;
using Clackbeat.Commands.WhatIf;
using Clackbeat.Frame;

namespace Clackbeat.Commands;

/// <summary>Every command, in the order the help shows; one file a command, one line here.</summary>
internal static class CommandList
{
    // Each with its names: so the one that is asked for is made without the others.
    private static readonly (Func<Session, Command> Create, string[] Names)[] All =
    [
        (DemoCommand.Create, ["demo"]),
        (PlanCommand.Create, ["plan"]),
        (SiteCommand.Create, ["site"]),
        (PortsCommand.Create, ["ports"]),
        (BenchCommand.Create, ["bench"]),
        (WatchCommand.Create, ["watch"]),
        (RecordCommand.Create, ["record"]),
        (CollectCommand.Create, ["collect"]),
        (AnalyseCommand.Create, ["analyse", "analyze"]),
        (BaselineCommand.Create, ["baseline"]),
        (CheckCommand.Create, ["check"]),
        (ReportCommand.Create, ["report"]),
        (ExportCommand.Create, ["export"]),
        (ShareCommand.Create, ["share"]),
        (SimulateCommand.Create, ["simulate"]),
        (LogCommand.Create, ["log"]),
        (TrendCommand.Create, ["trend"]),
        (OverviewCommand.Create, ["overview"]),
        (TuneCommand.Create, ["tune"]),
        (WhatIfCommand.Create, ["what-if"]),
        (RatingCommand.Create, ["rating"]),
        (CalibrateCommand.Create, ["calibrate"]),
        (GuideCommand.Create, ["guide"]),
        (CompletionCommand.Create, ["completion"]),
        (LicencesCommand.Create, ["licences", "licenses"]),
    ];

    /// <summary>Creates the commands for one run of the program.</summary>
    /// <param name="session">The run.</param>
    /// <param name="first">The first word of the command line. Where it names a command, that one alone is made: the others take longer than a short command.</param>
    public static IEnumerable<Command> Create(Session session, string? first = null)
    {
        (Func<Session, Command> Create, string[] Names)[] named = [.. All.Where(c => c.Names.Contains(first))];
        return (named.Length > 0 ? named : All).Select(c => c.Create(session));
    }

    /// <summary>The names by which each command is found before it is made.</summary>
    internal static IEnumerable<(Command Made, string[] Names)> Named(Session session) => All.Select(c => (c.Create(session), c.Names));
}
