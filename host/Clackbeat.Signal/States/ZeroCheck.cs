using Clackbeat.Signal.Beats;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;

namespace Clackbeat.Signal.States;

/// <summary>Whether a record's zero is off by the pressure of the air.</summary>
public enum ZeroFault
{
    /// <summary>It is not.</summary>
    None,

    /// <summary>The record holds absolute pressure and is read as gauge.</summary>
    AbsoluteReadAsGauge,

    /// <summary>The record holds gauge pressure, and an atmosphere was taken from it.</summary>
    GaugeReadAsAbsolute,

    /// <summary>A still record fits both: gauge with the waste valve shut, and absolute with it open.</summary>
    Undecided,
}

/// <summary>
/// Holds a record against the two levels that physics gives a gauge record. As the waste valve opens the column is at rest, so the body
/// stands at the pressure of the air: zero. And over whole beats the mean of H − h is the losses' mean, so the mean pressure can't pass
/// ρgH. An absolute record misses both by an atmosphere. Weather and altitude are allowed for.
/// </summary>
/// <param name="Fault">The verdict.</param>
/// <param name="LevelPa">Level that decided, over what a gauge sensor would read in open air [Pa].</param>
/// <param name="AtmospherePa">Pressure of the air by the site's altitude [Pa absolute].</param>
/// <param name="AtOpening">The level is the one of the opening valve; else that of a still ram.</param>
public readonly record struct ZeroCheck(ZeroFault Fault, double LevelPa, double AtmospherePa, bool AtOpening)
{
    // The weather moves the air's pressure by some 3 %; as much again for a sensor's zero (ISO 2533 gives the mean only).
    private const double AirShare = 0.06;

    // Above this altitude nobody keeps a ram; it is the site file's own limit.
    private const double HighestM = 6000;

    // Standing water is not above the supply level: as much is left for a head that was paced and not levelled.
    private const double HeadShare = 0.3;

    /// <summary>True when the record must not be read as it stands.</summary>
    public bool IsWrong => Fault is ZeroFault.AbsoluteReadAsGauge or ZeroFault.GaugeReadAsAbsolute;

    /// <summary>Checks a record.</summary>
    /// <param name="site">The ram.</param>
    /// <param name="hydraulics">What follows from its site file.</param>
    /// <param name="tally">The record's counts.</param>
    /// <param name="beats">Its beats.</param>
    /// <param name="judged">What it was doing at the end.</param>
    internal static ZeroCheck Of(
        RamSite site, SiteHydraulics hydraulics, RecordTally tally, IReadOnlyList<Beat> beats, StateJudge judged)
    {
        double sensorZeroPa = -hydraulics.PressurePa(site.Sensor.HeightM);
        if (tally.MeanPa is not { } meanPa || tally.Flat)
        {
            return new ZeroCheck(ZeroFault.None, 0, site.AtmospherePa, false);
        }

        bool beaten = beats.Count > 0;
        double levelPa = (beaten ? Summaries.Median(beats, b => b.OpenStartPa) : judged.RestPa ?? meanPa) - sensorZeroPa;
        double leastAirPa = (1 - AirShare) * (site.AltitudeM is null ? RamSite.AtmosphereAtPa(HighestM) : site.AtmospherePa);
        double mostAirPa = (1 + AirShare) * site.AtmospherePa;
        double errorPa = 0.01 * (site.Sensor.RangeHighPa - site.Sensor.RangeLowPa);
        double supplyPa = hydraulics.PressurePa(site.Supply.HeadM);
        ZeroFault fault = levelPa < 0
            ? Under(meanPa - sensorZeroPa, levelPa, leastAirPa, mostAirPa, tally.LowestPa)
            : beaten ? Opening(levelPa, meanPa - sensorZeroPa, leastAirPa)
            : tally.LowestPa < -errorPa - (6 * tally.NoisePa) ? ZeroFault.None
            : Still(levelPa, supplyPa, hydraulics.PressurePa(site.Delivery.HeadM), leastAirPa, mostAirPa, errorPa);
        return new ZeroCheck(fault, levelPa, site.AtmospherePa, beaten);
    }

    // Half-way between nothing and the air lies the border of the level; no gauge record has a mean of an atmosphere beside it.
    private static ZeroFault Opening(double levelPa, double meanPa, double leastAirPa) =>
        levelPa > 0.5 * leastAirPa && meanPa > leastAirPa ? ZeroFault.AbsoluteReadAsGauge : ZeroFault.None;

    private static ZeroFault Under(double meanPa, double levelPa, double leastAirPa, double mostAirPa, double lowestPa) =>
        levelPa < -0.5 * leastAirPa && meanPa > -mostAirPa && lowestPa < -0.5 * leastAirPa ? ZeroFault.GaugeReadAsAbsolute : ZeroFault.None;

    private static ZeroFault Still(
        double levelPa, double supplyPa, double deliveryPa, double leastAirPa, double mostAirPa, double errorPa)
    {
        double highest = (1 + HeadShare) * supplyPa;
        bool absolute = levelPa > leastAirPa - errorPa && levelPa < mostAirPa + highest + errorPa;
        bool gauge = levelPa < highest + errorPa || Math.Abs(levelPa - deliveryPa) < (0.1 * deliveryPa) + errorPa;
        return !absolute ? ZeroFault.None : gauge ? ZeroFault.Undecided : ZeroFault.AbsoluteReadAsGauge;
    }
}
