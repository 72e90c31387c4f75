namespace Clackbeat.VirtualRam.Conditions;

/// <summary>What can be wrong with a ram; the codes that users meet are in <see cref="ConditionCodes"/>.</summary>
public enum RamCondition
{
    /// <summary>Nothing.</summary>
    Healthy,

    /// <summary>The waste valve hangs at its open stop in some beats.</summary>
    WasteValveSticking,

    /// <summary>The waste valve leaks when shut.</summary>
    WasteValveLeaking,

    /// <summary>The delivery valve leaks when shut.</summary>
    DeliveryValveLeaking,

    /// <summary>The delivery valve seats late and lets water run back.</summary>
    DeliveryValveLate,

    /// <summary>The air vessel has lost its air.</summary>
    AirVesselWaterlogged,

    /// <summary>Bubbles in the drive pipe.</summary>
    AirInDrivePipe,

    /// <summary>The supply level is low or the strainer is blocked.</summary>
    SupplyStarved,

    /// <summary>The delivery main is throttled or blocked.</summary>
    DeliveryRestricted,

    /// <summary>The waste valve is held shut.</summary>
    StoppedShut,

    /// <summary>The waste valve is held open.</summary>
    StoppedOpen,

    /// <summary>The sensor or its wiring lies.</summary>
    SensorFault,

    // New ones come last: the study draws by these numbers.

    /// <summary>The delivery main leaks or has burst some way along.</summary>
    DeliveryMainLeaking,

    /// <summary>The rubber of the waste valve is worn: the stroke is longer, the seat soft and no longer quite tight.</summary>
    WasteValveWorn,

    /// <summary>The lock nut of the waste valve slips in mid-record, and its stroke grows at once.</summary>
    LockNutSlips,

    /// <summary>The outlet of the waste valve stands under water.</summary>
    OutletDrowned,

    /// <summary>Another ram delivers into the same main, beside the vessel.</summary>
    SecondRam,

    /// <summary>Silt or rust along the drive pipe.</summary>
    DrivePipeSilted,

    /// <summary>The hole of the snifter is too large.</summary>
    SnifterTooLarge,
}
