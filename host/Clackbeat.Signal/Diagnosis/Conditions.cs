namespace Clackbeat.Signal.Diagnosis;

/// <summary>The condition codes of the contract.</summary>
public static class Conditions
{
    /// <summary>Nothing is wrong.</summary>
    public const string Healthy = "healthy";

    /// <summary>The waste valve hangs open in some beats.</summary>
    public const string WasteValveSticking = "waste-valve-sticking";

    /// <summary>The waste valve leaks when shut.</summary>
    public const string WasteValveLeaking = "waste-valve-leaking";

    /// <summary>The delivery valve leaks when shut.</summary>
    public const string DeliveryValveLeaking = "delivery-valve-leaking";

    /// <summary>The delivery valve seats late.</summary>
    public const string DeliveryValveLate = "delivery-valve-late";

    /// <summary>The air vessel has lost its air.</summary>
    public const string AirVesselWaterlogged = "air-vessel-waterlogged";

    /// <summary>Air in the drive pipe.</summary>
    public const string AirInDrivePipe = "air-in-drive-pipe";

    /// <summary>Low level or a blocked strainer.</summary>
    public const string SupplyStarved = "supply-starved";

    /// <summary>A throttled or blocked main.</summary>
    public const string DeliveryRestricted = "delivery-restricted";

    /// <summary>The delivery main leaks or has burst.</summary>
    public const string DeliveryMainLeaking = "delivery-main-leaking";

    /// <summary>Worn rubber of the waste valve.</summary>
    public const string WasteValveWorn = "waste-valve-worn";

    /// <summary>Stopped, the waste valve shut.</summary>
    public const string StoppedShut = "stopped-shut";

    /// <summary>Stopped, the waste valve open.</summary>
    public const string StoppedOpen = "stopped-open";

    /// <summary>The sensor or its wiring.</summary>
    public const string SensorFault = "sensor-fault";

    /// <summary>
    /// The conditions of a ram that beats, a well one first: those that the study trains a model for. A model without data for one of them never names it.
    /// </summary>
    public static IReadOnlyList<string> Beating { get; } =
    [
        Healthy, WasteValveSticking, WasteValveLeaking, DeliveryValveLeaking, DeliveryValveLate, AirVesselWaterlogged,
        AirInDrivePipe, SupplyStarved, DeliveryRestricted, DeliveryMainLeaking, WasteValveWorn,
    ];

    /// <summary>
    /// Which caution goes with looking after a fault, by what holds pressure or moves there: the end of the phrase's key
    /// <c>page.caution.…</c>. Null for a ram that is well.
    /// </summary>
    /// <param name="condition">The condition.</param>
    public static string? CautionOf(string condition) => condition switch
    {
        WasteValveSticking or WasteValveLeaking or WasteValveWorn or AirInDrivePipe or StoppedShut or StoppedOpen or SensorFault => "valve",
        DeliveryValveLeaking or DeliveryValveLate or AirVesselWaterlogged => "vessel",
        SupplyStarved => "intake",
        DeliveryRestricted or DeliveryMainLeaking => "main",
        _ => null,
    };
}
