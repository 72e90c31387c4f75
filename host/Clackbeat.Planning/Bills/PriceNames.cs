namespace Clackbeat.Planning.Bills;

/// <summary>Items that a user may give a price for. No price is built in: they differ too much by place and year.</summary>
public static class PriceNames
{
    /// <summary>A ram.</summary>
    public const string Ram = "ram";

    /// <summary>A metre of drive pipe.</summary>
    public const string DrivePipe = "drive-pipe";

    /// <summary>A metre of delivery main.</summary>
    public const string Main = "main";

    /// <summary>An air vessel.</summary>
    public const string AirVessel = "air-vessel";

    /// <summary>A header tank with its strainer.</summary>
    public const string HeaderTank = "header-tank";

    /// <summary>A cubic metre of storage tank.</summary>
    public const string Tank = "tank";

    /// <summary>A gate valve.</summary>
    public const string Valve = "valve";

    /// <summary>A kilowatt hour from the mains.</summary>
    public const string KilowattHour = "kwh";

    /// <summary>A litre of petrol.</summary>
    public const string Fuel = "fuel";

    /// <summary>A watt of solar panel.</summary>
    public const string Panel = "panel";

    /// <summary>A turbine with its pump.</summary>
    public const string Turbine = "turbine";

    /// <summary>An electric or engine pump.</summary>
    public const string Pump = "pump";

    /// <summary>Every name.</summary>
    public static IReadOnlyList<string> All { get; } =
        [Ram, DrivePipe, Main, AirVessel, HeaderTank, Tank, Valve, KilowattHour, Fuel, Panel, Turbine, Pump];
}
