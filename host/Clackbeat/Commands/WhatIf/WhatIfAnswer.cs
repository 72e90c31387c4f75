using Clackbeat.Hydraulics.Rating;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Figures;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;
using Clackbeat.Twin.Air;
using Clackbeat.Twin.Changes;
using Clackbeat.Twin.Fitting;
using Clackbeat.Twin.Model;

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

    /// <summary>How much air the vessel holds as it is; null where its air isn't changed.</summary>
    public VesselAir? Air { get; private init; }

    /// <summary>The twin's own beat: with its vessel at work where its air is changed.</summary>
    public required Cycle Beat { get; init; }

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
        bool isOfAir = steps.Any(s => s.Change.IsOfAir);
        VesselAir? air = isOfAir ? questions.AirNow : null;
        Prediction asIs = isOfAir ? questions.AsIs with { VesselSwingPa = questions.VesselSwingPa } : questions.AsIs;
        return new WhatIfAnswer(site, twin, asIs, ForetoldPipe.Of(site, asIs), [.. steps.Select(step =>
        {
            Prediction changed = questions.Of(step.Change);
            return new ChangedRam(air is null ? step : Placed(step, air.M3), changed, ForetoldPipe.Of(step.Change.Site(site), changed));
        })])
        {
            Disagreement = questions.Disagreement,
            Air = air,
            Beat = (isOfAir ? questions.BeatWithAir : null) ?? twin.Cycle,
        };
    }

    // Of a volume of air only the record tells what it is now.
    private static ChangeStep Placed(ChangeStep step, double nowM3) => step is { IsAir: true, Change.AirM3: { } m3 }
        ? step with { Factor = m3 / nowM3, Now = step.At * nowM3 / m3 }
        : step;
}
