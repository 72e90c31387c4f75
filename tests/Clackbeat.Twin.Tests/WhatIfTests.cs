using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Figures;
using Clackbeat.Signal.Flow;
using Clackbeat.Twin.Changes;
using Clackbeat.Twin.Fitting;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Truth;

namespace Clackbeat.Twin.Tests;

/// <summary>Foretold changes against the same change made on the virtual ram that made the record.</summary>
public class WhatIfTests
{
    // The rams that are recorded have their own masses, seats, bodies, friction and gap; the twin starts from none of them.
    [Theory]
    [InlineData(8001, PipeMaterial.GalvanisedSteel, RamCharacter.Smooth, PipeDetail.Real)]
    [InlineData(8002, PipeMaterial.PvcU, RamCharacter.Lively, PipeDetail.Elastic)]
    public void A_change_does_what_was_foretold(int number, PipeMaterial material, RamCharacter character, PipeDetail detail)
    {
        var drawn = DrawnRam.Of(number, material, character, detail);
        RamAnalysis analysis = drawn.Analysed(30);
        var twin = FittedTwin.Of(drawn.Site, analysis);
        Assert.NotNull(twin);
        var questions = new WhatIf(drawn.Site, analysis, twin);
        foreach (RamChange change in Changes(drawn.Site.Supply.HeadM, drawn.Site.Delivery.HeadM))
        {
            RamTotals truth = drawn.Truth(change.Ram(drawn.Ram, drawn.Site), 12);
            Prediction told = questions.Of(change);
            Assert.True(told.WillBeat > 0.5, $"{change}: {told.WillBeat}");
            // A few per cent of rate, and what a flow may be wrong by in nine of ten rams.
            Near(truth.BeatsPerMin!.Value, told.RatePerMin, 0.08, change);
            Near(truth.DeliveredM3 / truth.DurationS, told.DeliveredM3PerS, 0.15, change);
            Near(truth.WasteM3 / truth.DurationS, told.WasteM3PerS, 0.15, change);
        }
    }

    // The steady flow through an open valve lifts a plug only up to a weight: T. H. Thomas's λ is then 1 (Warwick DTU WP41, 1994).
    [Fact]
    public void A_plug_too_heavy_for_its_supply_will_not_beat()
    {
        var drawn = DrawnRam.Of(8003, PipeMaterial.GalvanisedSteel, RamCharacter.Smooth, PipeDetail.Real);
        RamAnalysis analysis = drawn.Analysed(20);
        var questions = new WhatIf(drawn.Site, analysis, FittedTwin.Of(drawn.Site, analysis)!);
        Prediction told = questions.Of(new RamChange { Weight = 4 });
        Assert.True(told.WillBeat < 0.1, $"{told.WillBeat}");
        Assert.Null(told.DeliveredM3PerS);
        Assert.Same(questions.AsIs, questions.Of(new RamChange()));
    }

    // What neither record nor twin can tell is withheld and not guessed.
    [Fact]
    public void A_twin_that_does_not_fit_stands_in_for_no_flow_of_the_record()
    {
        var drawn = DrawnRam.Of(8003, PipeMaterial.GalvanisedSteel, RamCharacter.Smooth, PipeDetail.Real);
        RamAnalysis analysis = drawn.Analysed(20);
        FittedTwin twin = FittedTwin.Of(drawn.Site, analysis)!;
        RamAnalysis silent = analysis with { Flow = new FlowSummary(), WhileBeating = null };
        Assert.NotNull(new WhatIf(drawn.Site, silent, twin).AsIs.DeliveredM3PerS);
        Prediction told = new WhatIf(drawn.Site, silent, twin with { Misfit = 1000 }).Of(new RamChange { Weight = 1.1 });
        Assert.Null(told.DeliveredM3PerS);
        Assert.Null(told.WasteM3PerS);
        Assert.NotNull(told.RatePerMin);

        // Record and twin together lie between the two; beside a twin that doesn't fit the record stands alone.
        double record = analysis.Flow.DeliveredM3PerS!.Value.Value;
        double own = twin.Cycle.DeliveredM3 / twin.Cycle.IntervalS;
        Assert.InRange(new WhatIf(drawn.Site, analysis, twin).AsIs.DeliveredM3PerS!.Value.Value, Math.Min(record, own), Math.Max(record, own));
        Assert.Equal(record, new WhatIf(drawn.Site, analysis, twin with { Misfit = 1000 }).AsIs.DeliveredM3PerS!.Value.Value, 12);
    }

    private static IEnumerable<RamChange> Changes(double supplyM, double deliveryM) =>
    [
        new RamChange { Stroke = 0.75 },
        new RamChange { Weight = 1.25 },
        new RamChange { DeliveryHeadM = 0.2 * deliveryM },
        new RamChange { SupplyHeadM = -0.15 * supplyM },
    ];

    private static void Near(double truth, Figure? figure, double share, RamChange change)
    {
        Assert.NotNull(figure);
        Assert.True(
            Math.Abs((figure.Value.Value / truth) - 1) < share, $"{change}: {figure.Value.Value:g4} ± {figure.Value.U:g2} for {truth:g4}");
    }
}
