using Clackbeat.Hydraulics.Rating;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Figures;
using Clackbeat.Site.Check;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;
using Clackbeat.Twin.Changes;
using Clackbeat.Twin.Fitting;

namespace Clackbeat.Commands.WhatIf;

/// <summary>A ram after a change.</summary>
/// <param name="Step">The change.</param>
/// <param name="Ram">What the ram does then.</param>
/// <param name="Pipe">Its drive pipe then.</param>
internal sealed record ChangedRam(ChangeStep Step, Prediction Ram, PipeCheck Pipe);

/// <summary>Everything that is told of a change.</summary>
/// <param name="Site">The site.</param>
/// <param name="Twin">The twin.</param>
/// <param name="AsIs">The ram as it is.</param>
/// <param name="PipeAsIs">Its drive pipe as it is.</param>
/// <param name="Changed">The ram after each change, in order: one, or those of a range.</param>
internal sealed record WhatIfAnswer(RamSite Site, FittedTwin Twin, Prediction AsIs, PipeCheck PipeAsIs, IReadOnlyList<ChangedRam> Changed)
{
    /// <summary>Delivered flow by the record alone and by the twin, where they disagree [m³/s]; else null.</summary>
    public (Figure Record, double Twin)? Disagreement { get; private init; }

    /// <summary>Which parts have moved since the baseline; empty without one.</summary>
    public IReadOnlyList<Fact> Moved { get; init; } = [];

    /// <summary>Works it out.</summary>
    /// <param name="site">The site.</param>
    /// <param name="analysis">The analysis of the record.</param>
    /// <param name="twin">The twin fitted to it.</param>
    /// <param name="steps">What is changed.</param>
    public static WhatIfAnswer Of(RamSite site, RamAnalysis analysis, FittedTwin twin, IReadOnlyList<ChangeStep> steps)
    {
        var questions = new Twin.Changes.WhatIf(site, analysis, twin);
        return new WhatIfAnswer(site, twin, questions.AsIs, Pipe(site, questions.AsIs), [.. steps.Select(step =>
        {
            Prediction changed = questions.Of(step.Change);
            return new ChangedRam(step, changed, Pipe(step.Change.Site(site), changed));
        })])
        {
            Disagreement = questions.Disagreement,
        };
    }

    // Fatigue counts the cycles of a whole record; a foretold peak is judged by pressure and by its beats.
    private static PipeCheck Pipe(RamSite site, Prediction ram) => PipeRating.Check(SiteLoad.Of(site) with
    {
        PeakPa = ram.PeakPa?.Value,
        PeakUncertaintyPa = ram.PeakPa?.U,
        BeatsPerMin = ram.RatePerMin?.Value,
    });
}
