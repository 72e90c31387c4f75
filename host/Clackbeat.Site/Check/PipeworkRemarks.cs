using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Transients;
using Clackbeat.Hydraulics.Water;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Site.Check;

/// <summary>What sections, a stand pipe, a snifter, the valve's kind and the outlets mean for this ram.</summary>
internal static class PipeworkRemarks
{
    // Below this an echo of a joint is lost among those of bends and fittings.
    private const double LeastEcho = 0.05;

    // A swing below this share of the supply head changes the flow by less than a level is usually known to (2 %).
    private const double LeastSwing = 0.02;

    // A stand pipe on a feed that takes more of the fall than this starves the ram.
    private const double LargestFeedLoss = 0.2;

    // A snifter that spits more than this share of the delivery is worth a smaller one.
    private const double LargestSpit = 0.05;

    public static IEnumerable<Fact> Of(RamSite site, ExpectedFigures expected) =>
    [
        .. AboutSections(site, expected.Hydraulics),
        .. AboutStandPipe(site, expected),
        .. AboutSnifter(site, expected),
        .. AboutWasteValve(site.WasteValve),
        .. AboutDelivery(site.Delivery),
        .. AboutNeighbours(site),
    ];

    private static IEnumerable<Fact> AboutSections(RamSite site, SiteHydraulics hydraulics)
    {
        for (int joint = 0; joint + 1 < hydraulics.Sections.Count; joint++)
        {
            (PipeSection up, PipeSection down) = (site.DrivePipe.Sections[joint], site.DrivePipe.Sections[joint + 1]);
            double echo = hydraulics.Pipe.ReflectionFromRam(joint);
            if (Math.Abs(echo) >= LeastEcho)
            {
                yield return Fact.Of("site.joint-echo", ("up", joint + 1), ("down", joint + 2), ("echo_share", Math.Abs(echo)), ("echo_ms", 1000 * EchoS(hydraulics, joint)));
            }

            if (up.BoreM < 0.95 * down.BoreM)
            {
                yield return Fact.Of("site.pipe-widens", ("up", joint + 1), ("down", joint + 2));
            }
        }
    }

    private static double EchoS(SiteHydraulics hydraulics, int joint) =>
        2 * hydraulics.Sections.Skip(joint + 1).Sum(s => s.Reach.WaveTimeS);

    private static IEnumerable<Fact> AboutStandPipe(RamSite site, ExpectedFigures expected)
    {
        if (site.Supply.StandPipe is not { FeedLengthM: { } feedLength, FeedBoreM: { } feedBore } stand)
        {
            yield break;
        }

        double drawn = expected.Ram.WasteM3PerS.Middle + expected.Ram.DeliveredM3PerS.Middle;
        double feedArea = Math.PI / 4 * feedBore * feedBore;
        double standArea = Math.PI / 4 * stand.BoreM * stand.BoreM;
        // A flow that grows evenly from nothing draws a quarter of the beat's water ahead of the mean in its second half.
        double swing = 0.25 * drawn * 60 / expected.Ram.BeatsPerMin.Middle / standArea;
        if (swing > LeastSwing * site.Supply.HeadM)
        {
            yield return Fact.Of(
                "site.stand-pipe-swings", ("swing_m", Text(site, QuantityKind.Length, swing, 2)), ("period_s", MassOscillation.PeriodS(feedLength, feedArea, standArea)));
        }

        double reynolds = Friction.Reynolds(drawn / feedArea, feedBore, expected.Hydraulics.Water.KinematicViscosityM2PerS);
        double loss = Friction.HeadLossM(Friction.DarcyFactor(reynolds, 1e-5 / feedBore), feedLength, feedBore, drawn / feedArea);
        if (loss > LargestFeedLoss * site.Supply.HeadM)
        {
            yield return Fact.Of("site.feed-loses-head", ("loss_m", Text(site, QuantityKind.Length, loss, 2)));
        }
    }

    private static IEnumerable<Fact> AboutSnifter(RamSite site, ExpectedFigures expected)
    {
        if (site.AirVessel.SnifterBoreM is not { } bore)
        {
            yield break;
        }

        // It spits while the delivery head stands in the body: about a fifth of a beat or less (time of delivery over period).
        double share = Math.Clamp(expected.Ram.BeatsPerMin.Middle / 60 * expected.Hydraulics.Geometry.InertiaLengthM * expected.Ram.ClosingVelocityMPerS.Middle
            / (Constants.GravityMPerS2 * (site.Delivery.HeadM - site.Supply.HeadM)), 0, 1);
        double spit = share * Orifice.WaterM3PerS(Math.PI / 4 * bore * bore, site.Delivery.HeadM);
        if (spit > LargestSpit * expected.Ram.DeliveredM3PerS.Middle)
        {
            yield return Fact.Of("site.snifter-large", ("spit_m3_per_s", Text(site, QuantityKind.Flow, spit, 2)));
        }
    }

    private static IEnumerable<Fact> AboutWasteValve(WasteValve valve)
    {
        if (valve.Kind == WasteValveKind.Flap)
        {
            yield return Fact.Of("site.flap");
        }

        if (valve.Count > 1)
        {
            yield return Fact.Of("site.valves-together", ("valves", valve.Count));
        }

        if (valve.Outlet == OutletKind.Drowned)
        {
            yield return Fact.Of("site.valve-drowned");
        }
    }

    private static IEnumerable<Fact> AboutDelivery(Delivery delivery)
    {
        if (delivery.Outlet == OutletKind.Drowned)
        {
            yield return Fact.Of("site.delivery-drowned");
        }
    }

    private static IEnumerable<Fact> AboutNeighbours(RamSite site)
    {
        if (site.Supply.OtherRams is > 0 and var others)
        {
            yield return Fact.Of("site.other-rams", ("rams", others));
        }
    }

    private static Quantity Text(RamSite site, QuantityKind kind, double value, int digits) => new(kind, value, site.Units, digits);
}
