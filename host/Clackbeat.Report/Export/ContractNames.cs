using Clackbeat.Hydraulics.Rating;
using Clackbeat.Signal.States;

namespace Clackbeat.Report.Export;

/// <summary>The names that states and verdicts carry in files; other programs rely on them.</summary>
public static class ContractNames
{
    /// <summary>Schema of the analysis file.</summary>
    public const string AnalysisSchema = "clackbeat.analysis/2";

    /// <summary>Name of a state.</summary>
    public static string Of(RamState state) => state switch
    {
        RamState.Beating => "beating",
        RamState.StoppedShut => "stopped-shut",
        RamState.StoppedOpen => "stopped-open",
        RamState.NoSignal => "no-signal",
        _ => throw new ArgumentOutOfRangeException(nameof(state), state, null),
    };

    /// <summary>Name of a verdict on the pipe.</summary>
    public static string Of(PipeVerdict verdict) => verdict switch
    {
        PipeVerdict.Within => "within",
        PipeVerdict.Near => "near",
        PipeVerdict.Over => "over",
        PipeVerdict.Unknown => "unknown",
        _ => throw new ArgumentOutOfRangeException(nameof(verdict), verdict, null),
    };
}
