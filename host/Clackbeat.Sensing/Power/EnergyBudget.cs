namespace Clackbeat.Sensing.Power;

/// <summary>What a lone logger draws from its battery with a schedule of bursts.</summary>
public sealed record EnergyBudget
{
    private const double SecondsPerDay = 86_400;

    /// <summary>Current while awake, sensor included [A].</summary>
    public required double AwakeA { get; init; }

    /// <summary>Current while asleep [A].</summary>
    public required double AsleepA { get; init; }

    /// <summary>Length of a burst [s].</summary>
    public required double BurstS { get; init; }

    /// <summary>From the start of one burst to the next [s]; at least the burst with its waking.</summary>
    public required double IntervalS { get; init; }

    /// <summary>Time awake beside the burst: start, card, end [s].</summary>
    public double OverheadS { get; init; } = 3;

    /// <summary>Share of the time awake.</summary>
    public double AwakeShare => Math.Min(1, (BurstS + OverheadS) / IntervalS);

    /// <summary>Mean current [A].</summary>
    public double MeanA => (AwakeA * AwakeShare) + (AsleepA * (1 - AwakeShare));

    /// <summary>Charge a day [C].</summary>
    public double ChargePerDayC => MeanA * SecondsPerDay;

    /// <summary>Days that a battery lasts without charging.</summary>
    /// <param name="capacityC">Its charge [C]; 1 Ah is 3600 C.</param>
    /// <param name="usableShare">Share that may be drawn, cold and age allowed for.</param>
    public double Days(double capacityC, double usableShare) => capacityC * usableShare / ChargePerDayC;

    /// <summary>Peak power of a solar panel that keeps pace [W].</summary>
    /// <param name="batteryV">Battery voltage [V].</param>
    /// <param name="sunHours">Hours of full sun a day in the worst month.</param>
    /// <param name="shareThatArrives">What is left of it behind dirt, angle and charge regulator.</param>
    public double PanelW(double batteryV, double sunHours, double shareThatArrives) =>
        ChargePerDayC / 3600 * batteryV / (sunHours * shareThatArrives);
}
