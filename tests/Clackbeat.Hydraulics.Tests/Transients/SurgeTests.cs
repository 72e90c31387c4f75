using Clackbeat.Hydraulics.Transients;
using CsCheck;

namespace Clackbeat.Hydraulics.Tests.Transients;

public class SurgeTests
{
    [Fact]
    public void A_slower_closure_never_hits_harder_and_none_beats_Joukowsky() =>
        Gen.Select(Gen.Double[200, 1450], Gen.Double[1, 100], Gen.Double[0, 0.5], Gen.Double[0, 0.5]).Sample((a, length, t1, t2) =>
        {
            (double quick, double slow) = (Math.Min(t1, t2), Math.Max(t1, t2));
            double hard = Surge.ClosurePa(1000, a, length, 2, quick);
            Assert.True(Surge.ClosurePa(1000, a, length, 2, slow) <= hard * (1 + 1e-12));
            Assert.True(hard <= Surge.JoukowskyPa(1000, a, 2) * (1 + 1e-12));
        });

    [Fact]
    public void Head_and_pressure_forms_of_Joukowsky_agree() =>
        Gen.Select(Gen.Double[200, 1450], Gen.Double[0, 5]).Sample((a, velocity) =>
            Math.Abs(Surge.JoukowskyHeadM(a, velocity) * 9.80665 * 998 - Surge.JoukowskyPa(998, a, velocity)) < 1e-3);
}
