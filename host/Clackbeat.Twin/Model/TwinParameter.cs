namespace Clackbeat.Twin.Model;

/// <summary>What is fitted. Each is a natural logarithm over its starting value, but for <see cref="GapShare"/>.</summary>
public enum TwinParameter
{
    /// <summary>Effective area of the open waste valve.</summary>
    OpenArea,

    /// <summary>Head across the open waste valve that lifts its plug.</summary>
    LiftingHead,

    /// <summary>Losses of intake and drive pipe.</summary>
    Losses,

    /// <summary>Head in the air vessel.</summary>
    VesselHead,

    /// <summary>Share of the open valve's loss that is in the gap under the plug, as log-odds; the rest is in passages of fixed size.</summary>
    GapShare,

    /// <summary>Moving mass of the waste valve.</summary>
    PlugMass,

    /// <summary>Mass of the delivery valve and the water in its passage, and half of that off its closing force: a later seating.</summary>
    Lateness,

    /// <summary>Gas in the body.</summary>
    BodyGas,

    /// <summary>Free gas along the drive pipe, over a hundred-thousandth of its volume at the pressure of the air.</summary>
    PipeGas,

    /// <summary>Wave speed of the drive pipe as the open phase shows it.</summary>
    WaveSpeed,

    /// <summary>Supply level.</summary>
    SupplyHead,
}

/// <summary>The parameters' number, start and prior.</summary>
public static class TwinParameters
{
    /// <summary>How many there are.</summary>
    public const int Count = 11;

    /// <summary>
    /// Standard deviations before the record is looked at. Area, losses and vessel head start from the record's own analysis; the others
    /// say how far valves of usual make differ (common practice): half to nine tenths of the loss in the gap, one to a hundred
    /// millionths of gas in the pipe. Wave speed and level go by how far record and site file agree.
    /// </summary>
    /// <param name="waveSpeed">Of the wave speed, as a share.</param>
    /// <param name="supplyHead">Of the supply level, as a share.</param>
    public static double[] Spreads(double waveSpeed, double supplyHead) =>
        [0.08, 0.5, 0.15, 0.08, 0.7, 0.6, 0.7, 1.0, 1.3, waveSpeed, supplyHead];

    /// <summary>
    /// Where the fit starts: the ram as designed for the site, with seven tenths of the open valve's loss in the gap, and the delivery valve
    /// taking some hundredths of the head.
    /// </summary>
    public static double[] Start() => [0, 0, 0, -0.03, Math.Log(0.7 / 0.3), 0, 0.4, 0, 0, 0, 0];
}
