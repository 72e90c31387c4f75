namespace Clackbeat.Sensing.Power;

/// <summary>
/// What a lone logger draws from its battery, from the currents of its parts. All of them differ from board to board:
/// measure yours, the sums then follow.
/// </summary>
public sealed record PowerParts
{
    // U2 is set to this, so that D7 leaves some 4.9 V on the rail: its current is drawn at 5.2 V (hardware/wiring.md).
    private const double ConverterOutV = 5.2;

    /// <summary>Voltage of the battery [V].</summary>
    public required double BatteryV { get; init; }

    /// <summary>What the diode before the converter takes [V]: a Schottky diode's 0.4 V at a tenth of an ampere or less.</summary>
    public double InputDiodeV { get; init; } = 0.4;

    /// <summary>Share of its input power that the step-down converter hands on while the board is awake.</summary>
    public required double ConverterEfficiency { get; init; }

    /// <summary>What the converter draws from the battery without a load [A].</summary>
    public required double ConverterIdleA { get; init; }

    /// <summary>The board awake, at 5 V [A].</summary>
    public required double BoardAwakeA { get; init; }

    /// <summary>The board asleep, at 5 V [A].</summary>
    public required double BoardAsleepA { get; init; }

    /// <summary>The sensor with what hangs on its supply, at 5 V [A]; 0 for a loop.</summary>
    public double SensorA { get; init; }

    /// <summary>The loop, straight from the battery [A]; 0 for a sensor on 5 V.</summary>
    public double LoopA { get; init; }

    /// <summary>The sensor's supply is switched off between bursts.</summary>
    public required bool SensorIsSwitched { get; init; }

    /// <summary>Resistance of the divider that reads the battery [Ω].</summary>
    public required double BatteryDividerOhm { get; init; }

    /// <summary>Current from the battery while the logger records [A].</summary>
    public double AwakeA => FromBattery(BoardAwakeA + SensorA) + LoopA + AlwaysA;

    /// <summary>Current from the battery while it sleeps [A].</summary>
    public double AsleepA => SensorIsSwitched
        ? FromBattery(BoardAsleepA) + AlwaysA
        : FromBattery(BoardAsleepA + SensorA) + LoopA + AlwaysA;

    private double AlwaysA => ConverterIdleA + (BatteryV / BatteryDividerOhm);

    // Power is handed on, less what the converter and the diodes on both its sides lose.
    private double FromBattery(double railA) => railA * ConverterOutV / ((BatteryV - InputDiodeV) * ConverterEfficiency);
}
