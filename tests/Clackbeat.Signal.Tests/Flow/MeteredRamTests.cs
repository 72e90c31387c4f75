using Clackbeat.Records.Tables;
using Clackbeat.Signal.Analysis;

namespace Clackbeat.Signal.Tests.Flow;

/// <summary>
/// The laboratory ram of summer 2019 whose delivered water was drawn off by a metering pump: docs/published-rams.md tells where each
/// figure comes from. Length and heads were taken from that year's notebook before the first run, and stand in
/// <see cref="Rams.Laboratory2019"/>.
/// </summary>
public class MeteredRamTests
{
    // ram-body-b, spring K127: 26.36 mL/s by the report, which evaluates another run; 30.4 mL/s by this record's own pump column
    // (3.26 hundreds of turns a minute in the mean from 6 to 41.5 s, two heads, 2.8 mL a turn).
    private const double ReportedM3PerS = 26.36e-6;
    private const double PumpedM3PerS = 30.4e-6;

    [SkippableFact]
    public void The_flow_of_the_metered_record_agrees_with_the_meter_or_is_withheld_with_its_reason()
    {
        RamAnalysis found = Analyse("ram-body-b");
        if ((found.Flow.DeliveredM3PerS ?? found.WhileBeating?.Flow.DeliveredM3PerS) is not { } flow)
        {
            Assert.NotNull(found.WhyNoFlow);
            return;
        }

        double u = Math.Max(flow.U, 0.2 * flow.Value);
        Assert.True(
            flow.Value + u >= ReportedM3PerS && flow.Value - u <= PumpedM3PerS,
            $"{flow.Value * 1e6:0.0} ± {flow.U * 1e6:0.0} mL/s; metered 26.4 to 30.4");
    }

    // ram-body-a, spring K428: its pump column stands at its stop all the time, so no metered flow belongs to this record. See the page.
    [SkippableFact]
    public void The_record_without_a_meter_has_its_flow_with_an_uncertainty_or_withheld_with_its_reason()
    {
        RamAnalysis found = Analyse("ram-body-a");
        Assert.True(found.Flow.DeliveredM3PerS is { U: > 0 } || found.WhyNoFlow is not null);
        Assert.InRange(found.Beats.RatePerMin!.Value.Value, 213, 218);
    }

    private static RamAnalysis Analyse(string name)
    {
        string? folder = Rams.TracesFolder("measured");
        Skip.If(folder is null, "needs the measured traces beside the checkout (CLACKBEAT_SHARED)");
        return Rams.Analyse(Rams.Laboratory2019, Path.Combine(folder!, name + ".tsv"), TraceColumns.Parse("day_fraction:day", "body_cm:cm"));
    }
}
