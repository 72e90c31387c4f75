namespace Clackbeat.Planning.Wishes;

/// <summary>How a ram is made, as far as the published efficiencies tell kinds apart.</summary>
public enum RamKind
{
    /// <summary>Nobody has said; figures follow the whole published spread.</summary>
    Unknown,

    /// <summary>Bought, with a cast or machined body and valves that were made for it, and set up by trying.</summary>
    Cast,

    /// <summary>Made at home or in a small workshop of pipe fittings and check valves.</summary>
    HomeMade,
}
