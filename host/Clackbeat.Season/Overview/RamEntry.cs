using Clackbeat.Season.Upkeep;

namespace Clackbeat.Season.Overview;

/// <summary>What is known of a ram beside its bursts, from a list that the service keeps.</summary>
/// <param name="Ram">Its name in the store.</param>
/// <param name="Place">Where it stands; null where the list has no position.</param>
/// <param name="NeedM3PerS">Water that is needed of it, as a flow through day and night [m³/s]; null for unknown.</param>
/// <param name="Keeper">Who looks after it; empty for nobody named.</param>
public sealed record RamEntry(string Ram, Position? Place, double? NeedM3PerS, string Keeper)
{
    /// <summary>How often the keeper wants something checked, by the code of the check; the others keep their usual interval.</summary>
    public IReadOnlyDictionary<string, UpkeepInterval> Intervals { get; init; } = new Dictionary<string, UpkeepInterval>();
}

/// <summary>A place on earth, WGS 84.</summary>
/// <param name="LatitudeDeg">North of the equator, −90 to 90 [°].</param>
/// <param name="LongitudeDeg">East of Greenwich, −180 to 180 [°].</param>
public readonly record struct Position(double LatitudeDeg, double LongitudeDeg);
