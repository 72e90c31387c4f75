using Clackbeat.Protocol;

namespace Clackbeat.Logger;

/// <summary>What the parts of the logger tell each other, and what health and hello are made of.</summary>
public sealed class LoggerState
{
    /// <summary>What the logger is doing, from the protocol's modes.</summary>
    public int Mode { get; set; } = Modes.Idle;

    /// <summary>How often the device has started; 0 where nothing remembers it.</summary>
    public uint Boot { get; set; }

    /// <summary>Number of the running burst; 0 when not alone.</summary>
    public uint Burst { get; set; }

    /// <summary>Period in force [µs].</summary>
    public int PeriodMicroseconds { get; set; }

    /// <summary>Samples to one reading of the sensor's supply, in force.</summary>
    public int SupplyEvery { get; set; }

    /// <summary>Samples to one reading of the delivery pressure, in force.</summary>
    public int DeliveryEvery { get; set; }

    /// <summary>How often the program came late by a period or more.</summary>
    public uint Overruns { get; set; }

    /// <summary>Samples taken since the start.</summary>
    public uint Samples { get; set; }

    /// <summary>Grid points without a sample since the start.</summary>
    public uint LostSamples { get; set; }

    /// <summary>Last reading of the sensor's supply [counts].</summary>
    public int SupplyCounts { get; set; } = ProtocolVersion.NotGiven16;

    /// <summary>Last reading of the battery [counts].</summary>
    public int BatteryCounts { get; set; } = ProtocolVersion.NotGiven16;

    /// <summary>Pieces of received bytes that were no frame.</summary>
    public int DiscardedPieces { get; set; }

    /// <summary>Calendar minus device clock [ms], once told.</summary>
    public long CalendarOffsetMilliseconds { get; set; }

    /// <summary>Uncertainty of the calendar as told [ms].</summary>
    public uint CalendarUncertaintyMilliseconds { get; set; }

    /// <summary>Where the calendar comes from, from the protocol's clock sources.</summary>
    public int Clock { get; set; } = ClockSources.None;

    /// <summary>Puts the settings in force.</summary>
    public void Apply(LoggerSettings settings)
    {
        PeriodMicroseconds = settings.PeriodMicroseconds;
        SupplyEvery = settings.SupplyEvery;
        DeliveryEvery = settings.DeliveryEvery;
    }
}
