using Clackbeat.Hydraulics;
using Clackbeat.Hydraulics.Water;
using Clackbeat.Planning.Demand;
using Clackbeat.Planning.Others;
using Clackbeat.Planning.Pipework;
using Clackbeat.Planning.Wishes;
using Clackbeat.Site.Facts;

namespace Clackbeat.Planning.Plans;

/// <summary>From a spring, a slope and a need to rams, pipes and what they give.</summary>
public static class Planner
{
    // More than these side by side is a pumping station that wants an engineer.
    private const int MostRams = 40;
    private const int Offered = 3;

    // A second ram costs a second drive pipe: as much worse as a mean velocity a quarter off the usual.
    private const double PerRam = 0.25;

    private const double HighRatio = 20;

    /// <summary>Least fall that agencies ask for [m] (Technical Note RWS.4.D.5).</summary>
    internal const double AgenciesLeastFallM = 0.5;

    /// <summary>Plans.</summary>
    /// <param name="wish">What is wanted.</param>
    public static RamPlan Of(PlanWish wish)
    {
        ArgumentNullException.ThrowIfNull(wish);
        var water = WaterProperties.At(wish.WaterTemperatureC);
        IReadOnlyList<DriveSize> sizes = DriveSize.Of(wish.DriveMaterial);
        if (Refusals.Of(wish, sizes) is { } refusal)
        {
            return new RamPlan { Wish = wish, Refusal = refusal, Alternatives = Instead(wish, water) };
        }

        List<(DriveSize Size, int Count)> layouts = Layouts(wish, sizes);
        if (layouts.Count == 0)
        {
            return new RamPlan
            {
                Wish = wish,
                Refusal = Fact.Of("plan-flow-beyond-rams", ("rams", MostRams), ("flow_l_per_min", 6e4 * wish.SupplyFlowM3PerS)),
                Alternatives = Instead(wish, water),
            };
        }

        RamChoice[] choices = [.. layouts.Select((l, rank) => ChoiceMaker.Make(wish, l.Size, l.Count, water, withTrial: rank == 0))];
        RamChoice best = choices[0];
        List<Band> delivered = best.Months.Count == 12
            ? best.Months.Select(m => m.DeliveredM3PerS).ToList()
            : [.. Enumerable.Repeat(best.DeliveredM3PerS, 12)];
        IReadOnlyList<double> match = wish.MonthlyNeedM3PerS.Count == 12 ? wish.MonthlyNeedM3PerS : [.. delivered.Select(d => d.Middle)];
        return new RamPlan
        {
            Wish = wish,
            Choices = choices,
            Alternatives = OtherPumps.For(wish, match, water),
            Enough = wish.MonthlyNeedM3PerS.Count == 12 ? Sufficiency.Of(delivered, wish.MonthlyNeedM3PerS, wish.Shortfall) : null,
            Remarks = [.. Remarks(wish, best)],
            WouldChange = [.. PlanFacts.WouldChange(wish, best)],
        };
    }

    // The water that nobody can have by a ram is still wanted: what it takes another way.
    private static IReadOnlyList<Alternative> Instead(PlanWish wish, WaterProperties water) =>
        wish.LiftM > wish.SupplyHeadM && wish.SupplyFlowM3PerS > 0
            ? OtherPumps.For(wish, OtherPumps.Twelve(wish.MonthlyNeedM3PerS, 0.1 * wish.SupplyFlowM3PerS), water)
            : [];

    // The best layout of each of the smallest numbers of rams.
    private static List<(DriveSize Size, int Count)> Layouts(PlanWish wish, IReadOnlyList<DriveSize> sizes)
    {
        IEnumerable<(DriveSize Size, int Count, bool Dry, double Off)> fitting =
            from size in sizes
            from count in Enumerable.Range(1, MostRams)
            let each = wish.SupplyFlowM3PerS / count
            where each >= size.LeastFlowM3PerS && each <= size.MostFlowM3PerS
            // One ram of them has to run on the dry flow.
            let dry = wish.LeastFlowM3PerS >= size.LeastFlowM3PerS
            let off = Math.Abs(Math.Log(each / size.AreaM2 / DriveSize.UsualMPerS)) + PerRam * (count - 1)
            select (Size: size, Count: count, Dry: dry, Off: off);
        return [.. fitting.GroupBy(f => f.Count)
            .Select(group => group.OrderBy(f => !f.Dry).ThenBy(f => f.Off).First())
            .OrderBy(f => !f.Dry).ThenBy(f => f.Off)
            .Take(Offered)
            .Select(f => (f.Size, f.Count))];
    }

    private static IEnumerable<Fact> Remarks(PlanWish wish, RamChoice best)
    {
        double ratio = wish.LiftM / wish.SupplyHeadM;
        yield return wish.Kind switch
        {
            RamKind.Cast => Fact.Of("plan-kind-cast"),
            RamKind.HomeMade => Fact.Of("plan-kind-home-made"),
            _ => Fact.Of("plan-kind-unknown", ("factor", best.DeliveredM3PerS.High / best.DeliveredM3PerS.Low)),
        };
        if (ratio > Yields.EfficiencyLaw.HighestRatioSeen)
        {
            yield return Fact.Of("plan-ratio-beyond-tables", ("ratio", ratio), ("seen", Yields.EfficiencyLaw.HighestRatioSeen));
        }
        else if (ratio > HighRatio)
        {
            yield return Fact.Of("plan-ratio-high", ("ratio", ratio));
        }
        else if (ratio < 1.5)
        {
            yield return Fact.Of("plan-ratio-low", ("ratio", ratio));
        }

        if (wish.SupplyHeadM < AgenciesLeastFallM)
        {
            yield return Fact.Of("plan-fall-small", ("head_m", wish.SupplyHeadM), ("least_m", AgenciesLeastFallM));
        }

        if (best.DryDeliveredM3PerS.High <= 0)
        {
            yield return Fact.Of("plan-dry-stops", ("dry_l_per_min", 6e4 * wish.LeastFlowM3PerS), ("least_l_per_min", 6e4 * best.Size.LeastFlowM3PerS));
        }

        if (best.Main.IsLengthAssumed)
        {
            yield return Fact.Of("plan-main-length-assumed", ("length_m", best.Main.LengthM));
        }

        if (best.Main.IsOverRated)
        {
            yield return Fact.Of("plan-main-over-rated", ("rated_bar", best.Main.RatedPa / 1e5), ("lift_m", wish.LiftM));
        }
    }
}
