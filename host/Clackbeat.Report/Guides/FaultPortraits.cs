using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Site.Model;

namespace Clackbeat.Report.Guides;

/// <summary>The records that a field guide shows: one ram, well and with each fault.</summary>
/// <param name="Site">The ram.</param>
/// <param name="IsKeepers">It is the reader's own, not an invented one.</param>
/// <param name="Well">The ram when it is well.</param>
/// <param name="Faults">Each fault's condition code and its record, in the order of the guide.</param>
/// <param name="Further">Causes that no model names, and their records; null where the virtual ram can't draw them.</param>
public sealed record FaultPortraits(
    RamSite Site, bool IsKeepers, RamAnalysis Well, IReadOnlyList<(string Condition, RamAnalysis Record)> Faults,
    IReadOnlyList<(FurtherCause Cause, RamAnalysis? Record)> Further);
