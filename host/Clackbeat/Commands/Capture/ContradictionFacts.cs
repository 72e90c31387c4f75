using Clackbeat.Sensing.Calibrating;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Commands.Capture;

/// <summary>What is to be told of points that the data sheets can't explain.</summary>
internal static class ContradictionFacts
{
    /// <summary>What contradicts what, by how much, and where to look.</summary>
    public static Fact Of(DataSheetContradiction found, Units units)
    {
        Quantity Pressure(double pressurePa) => new(QuantityKind.Pressure, pressurePa, units);
        Fact what = found.Second is { } upper
            ? Fact.Of(
                "calibrate.slope-against",
                ("first", found.First.Text), ("second", upper.Text), ("reference_pa", Pressure(found.ReferencePa)), ("nominal_pa", Pressure(found.NominalPa)))
            : Fact.Of("calibrate.point-against", ("first", found.First.Text), ("reference_pa", Pressure(found.ReferencePa)), ("nominal_pa", Pressure(found.NominalPa)));
        double times = Math.Abs(found.ReferencePa - found.NominalPa) / found.LimitPa;
        times = Math.Round(times, times < 10 ? 1 : 0);
        var limit = Fact.Of("calibrate.limit", ("limit_pa", Pressure(found.LimitPa)), ("times", times), ("most", DataSheetContradiction.BeyondReason));
        Fact[] causes = [.. found.Causes.Select(c => Fact.Of("calibrate.cause", ("what", Of(c))))];
        return found is { LineLowPa: { } low, LineHighPa: { } high }
            ? Fact.Of(
                "calibrate.contradiction-fits",
                ("what", what), ("limit", limit), ("fits", Fact.Of("calibrate.fits-sensor", ("range", new Quantity(QuantityKind.Pressure, low, units, 2, high)))), ("causes", causes))
            : Fact.Of("calibrate.contradiction", ("what", what), ("limit", limit), ("causes", causes));
    }

    private static Fact Of(ContradictionCause cause) => cause switch
    {
        ContradictionCause.FallingCounts => Fact.Of("calibrate.cause-falling"),
        ContradictionCause.BarAndPsi => Fact.Of("calibrate.cause-psi"),
        ContradictionCause.MetresAndFeet => Fact.Of("calibrate.cause-feet"),
        ContradictionCause.PowerOfTen => Fact.Of("calibrate.cause-ten"),
        ContradictionCause.Atmosphere => Fact.Of("calibrate.cause-atmosphere"),
        _ => Fact.Of("calibrate.cause-keys"),
    };
}
