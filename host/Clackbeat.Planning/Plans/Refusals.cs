using Clackbeat.Planning.Pipework;
using Clackbeat.Planning.Wishes;
using Clackbeat.Site.Facts;

namespace Clackbeat.Planning.Plans;

/// <summary>Wishes that no ram fulfils, each with its reason.</summary>
internal static class Refusals
{
    // Least fall in RWS.4.D.5 is 0.5 m; below this nobody published a ram at work.
    private const double LeastFallM = 0.3;

    // The bulletin's table ends at 42 times the fall.
    private const double HighestRatio = 50;

    // A drive pipe of more than this is no ram's any more but a power station's (the site file's own limit).
    private const double HighestFallM = 50;

    private const double LitresPerMinute = 6e4;

    internal static Fact? Of(PlanWish wish, IReadOnlyList<DriveSize> sizes)
    {
        double ratio = wish.LiftM / wish.SupplyHeadM;
        double least = sizes[0].LeastFlowM3PerS;
        if (wish.SupplyHeadM <= 0)
        {
            return Fact.Of("plan-no-fall", ("head_m", wish.SupplyHeadM), ("least_m", Planner.AgenciesLeastFallM));
        }

        if (wish.LiftM <= wish.SupplyHeadM)
        {
            return Fact.Of("plan-lift-below-supply", ("lift_m", wish.LiftM), ("head_m", wish.SupplyHeadM));
        }

        if (wish.SupplyHeadM < LeastFallM)
        {
            return Fact.Of("plan-fall-too-small", ("head_m", wish.SupplyHeadM), ("least_m", LeastFallM));
        }

        if (wish.SupplyFlowM3PerS < least)
        {
            return Fact.Of("plan-flow-too-small", ("flow_l_per_min", LitresPerMinute * wish.SupplyFlowM3PerS), ("least_l_per_min", LitresPerMinute * least));
        }

        if (ratio > HighestRatio)
        {
            return Fact.Of("plan-lift-too-high", ("lift_m", wish.LiftM), ("ratio", ratio), ("highest_ratio", HighestRatio));
        }

        if (wish.SupplyHeadM > HighestFallM)
        {
            return Fact.Of("plan-fall-too-large", ("head_m", wish.SupplyHeadM), ("most_m", HighestFallM));
        }

        return wish.ShortestDrivePipeM > wish.LongestDrivePipeM
            ? Fact.Of("plan-lengths-crossed", ("shortest_m", wish.ShortestDrivePipeM.Value), ("longest_m", wish.LongestDrivePipeM.Value))
            : wish.LongestDrivePipeM < wish.SupplyHeadM
                ? Fact.Of("plan-pipe-shorter-than-fall", ("longest_m", wish.LongestDrivePipeM.Value), ("head_m", wish.SupplyHeadM))
                : null;
    }
}
