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
}

/// <summary>The parameters' number, start and prior.</summary>
public static class TwinParameters
{
    /// <summary>How many there are.</summary>
    public const int Count = 8;

    /// <summary>
    /// Standard deviations before the record is looked at. Area, losses and vessel head start from the record's own analysis; the others
    /// say how far valves of usual make differ (common practice).
    /// </summary>
    public static IReadOnlyList<double> PriorSpread { get; } = [0.04, 0.5, 0.12, 0.03, 0.9, 0.6, 0.7, 1.0];

    /// <summary>Where the fit starts: the ram as designed for the site, with three quarters of the open valve's loss in the gap.</summary>
    public static double[] Start() => [0, 0, 0, 0, Math.Log(3), 0, 0.4, 0];
}
