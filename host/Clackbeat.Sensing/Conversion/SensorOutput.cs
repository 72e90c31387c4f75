namespace Clackbeat.Sensing.Conversion;

/// <summary>What a sensor puts out.</summary>
public enum SignalKind
{
    /// <summary>A voltage [V].</summary>
    Voltage,

    /// <summary>A current [A], two-wire or three-wire.</summary>
    Current,
}

/// <summary>The electric output of a pressure sensor at both ends of its range.</summary>
/// <param name="Kind">Voltage or current.</param>
/// <param name="Low">Output at the low end of the pressure range [V or A].</param>
/// <param name="High">Output at the high end [V or A].</param>
/// <param name="FollowsSupply">The output is a share of the supply (ratiometric); the two ends hold at the nominal supply.</param>
public readonly record struct SensorOutput(SignalKind Kind, double Low, double High, bool FollowsSupply)
{
    /// <summary>10 to 90 % of a 5 V supply, the usual ratiometric sensor (TI SBOU024C, 10 to 90 % of the supply).</summary>
    public static SensorOutput RatiometricHalfToFourAndAHalfVolts { get; } = new(SignalKind.Voltage, 0.5, 4.5, true);

    /// <summary>The current loop of IEC 60381-1 with a live zero.</summary>
    public static SensorOutput FourToTwentyMilliamperes { get; } = new(SignalKind.Current, 0.004, 0.020, false);
}
