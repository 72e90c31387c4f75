using Clackbeat.Planning.Wishes;
using nietras.SeparatedValues;

namespace Clackbeat.Planning.Tests;

/// <summary>A row of Data/published-cases.csv; the sources stand in the README beside it.</summary>
internal sealed record PublishedCase(
    string Set, string Source, RamKind Kind, double FallM, double LiftM, double SupplyLPerMin, double DeliveredLPerMin)
{
    public double Efficiency => DeliveredLPerMin * LiftM / (SupplyLPerMin * FallM);

    public PlanWish Wish(RamKind kind) => new()
    {
        SupplyHeadM = FallM,
        SupplyFlowM3PerS = SupplyLPerMin / 6e4,
        LiftM = LiftM,
        Kind = kind,
    };

    public static IReadOnlyList<PublishedCase> Of(string set) => [.. Read().Where(c => c.Set == set)];

    private static List<PublishedCase> Read()
    {
        using SepReader reader = Sep.New(',').Reader().FromFile(Path.Combine(AppContext.BaseDirectory, "Data", "published-cases.csv"));
        return [.. reader.Enumerate(row => new PublishedCase(
            row["set"].ToString(),
            row["source"].ToString(),
            row["kind"].ToString() switch { "cast" => RamKind.Cast, "home-made" => RamKind.HomeMade, _ => RamKind.Unknown },
            row["fall_m"].Parse<double>(),
            row["lift_m"].Parse<double>(),
            row["supply_l_per_min"].Parse<double>(),
            row["delivered_l_per_min"].Parse<double>()))];
    }
}
