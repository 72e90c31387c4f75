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
    /// <summary>Creates the commands for one run of the program.</summary>
    public static IEnumerable<Command> Create(Session session) =>
    [
        DemoCommand.Create(session),
        PlanCommand.Create(session),
        SiteCommand.Create(session),
        PortsCommand.Create(session),
        BenchCommand.Create(session),
        WatchCommand.Create(session),
        RecordCommand.Create(session),
        CollectCommand.Create(session),
        AnalyseCommand.Create(session),
        BaselineCommand.Create(session),
        CheckCommand.Create(session),
        ReportCommand.Create(session),
        ExportCommand.Create(session),
        ShareCommand.Create(session),
        SimulateCommand.Create(session),
        LogCommand.Create(session),
        TrendCommand.Create(session),
        OverviewCommand.Create(session),
        TuneCommand.Create(session),
        WhatIfCommand.Create(session),
        RatingCommand.Create(session),
        CalibrateCommand.Create(session),
        GuideCommand.Create(session),
        CompletionCommand.Create(session),
        LicencesCommand.Create(session),
    ];
}
