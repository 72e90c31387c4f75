using System.CommandLine;
using Clackbeat.Frame;

namespace Clackbeat.Commands;

/// <summary>Every command, in the order the help shows; one file a command, one line here.</summary>
internal static class CommandList
{
    /// <summary>Creates the commands for one run of the program.</summary>
    public static IEnumerable<Command> Create(Session session) =>
    [
        DemoCommand.Create(session),
        SiteCommand.Create(session),
        PortsCommand.Create(session),
        WatchCommand.Create(session),
        RecordCommand.Create(session),
        CollectCommand.Create(session),
        AnalyseCommand.Create(session),
        ReportCommand.Create(session),
        ExportCommand.Create(session),
        SimulateCommand.Create(session),
        LogCommand.Create(session),
        TrendCommand.Create(session),
        TuneCommand.Create(session),
        RatingCommand.Create(session),
        CalibrateCommand.Create(session),
    ];
}
