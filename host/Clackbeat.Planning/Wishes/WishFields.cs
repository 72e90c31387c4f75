namespace Clackbeat.Planning.Wishes;

/// <summary>Names of what a wish may say: a command line has each with two dashes before it, a form has a field for it.</summary>
public static class WishFields
{
    /// <summary>The fall.</summary>
    public const string SupplyHead = "supply-head";

    /// <summary>What the spring gives in a usual month.</summary>
    public const string SupplyFlow = "supply-flow";

    /// <summary>The lift.</summary>
    public const string Lift = "lift";

    /// <summary>What the spring gives in the driest time.</summary>
    public const string DryFlow = "dry-flow";

    /// <summary>What it gives in each month.</summary>
    public const string SupplyMonths = "supply-months";

    /// <summary>How the ram is made.</summary>
    public const string Kind = "ram-kind";

    /// <summary>Lengths of the drive pipe that the ground allows.</summary>
    public const string DriveLength = "drive-length-possible";

    /// <summary>Length of the delivery main.</summary>
    public const string DeliveryLength = "delivery-length";

    /// <summary>Material of the drive pipe.</summary>
    public const string Material = "drive-material";

    /// <summary>Temperature of the water.</summary>
    public const string Temperature = "water-temperature";

    /// <summary>Water needed all year.</summary>
    public const string Need = "need";

    /// <summary>Water needed in each month.</summary>
    public const string NeedMonths = "need-months";

    /// <summary>People and animals.</summary>
    public const string Use = "use";

    /// <summary>Land that is watered.</summary>
    public const string Irrigate = "irrigate";

    /// <summary>Share of the need that may stay unmet.</summary>
    public const string Shortfall = "shortfall";

    /// <summary>Hours of full sun.</summary>
    public const string SunHours = "sun-hours";

    /// <summary>The user's prices.</summary>
    public const string Price = "price";
}
