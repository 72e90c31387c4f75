using Clackbeat.Hydraulics;
using Clackbeat.Hydraulics.Ram;
using Clackbeat.Hydraulics.Water;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Site.Check;

/// <summary>What stands out when the keys of a site are held against each other and against the expected figures.</summary>
internal static class SiteRemarks
{
    // The lowest ratio of peak to plateau in the measured records at hand is well above this (1.7 in modelled, 2.9 to
    // 4.9 in measured rams); a sensor that ends below it cuts off every beat.
    private const double LeastPeakOverDelivery = 1.5;

    // Rule of thumb, common practice: 20 to 50 times what one beat delivers.
    private const double LeastVesselOverBeat = 20;

    private const double LargestShareOfHead = 0.1;
    private const double WideRangeOverCeiling = 4;
    private const double FarFromComputed = 0.1;

    /// <summary>Contradictions between the site and what physics makes of it.</summary>
    public static IEnumerable<SiteProblem> Problems(RamSite site, SiteValues values, ExpectedFigures expected)
    {
        double soundSpeed = expected.Hydraulics.Water.SoundSpeedMPerS;
        foreach ((PipeSection section, PipePlace place) in site.DrivePipe.Sections.Zip(PipeBinder.Places(values)))
        {
            if (section.WaveSpeedMPerS is not { } waveSpeed || waveSpeed <= soundSpeed)
            {
                continue;
            }

            yield return new SiteProblem(
                values.LineOf(place.Table, "wave_speed", place.Block),
                Fact.Of("site.wave-speed-above-sound", ("place", place.Said), ("speed_m_per_s", Text(site, QuantityKind.Velocity, waveSpeed)), ("sound_m_per_s", Text(site, QuantityKind.Velocity, soundSpeed))));
        }

        double needed = LeastTopPa(expected);
        if (TopOf(site) < needed)
        {
            yield return new SiteProblem(
                values.LineOf("sensor", "range"),
                Fact.Of("site.range-too-low", ("top_pa", Text(site, QuantityKind.Pressure, TopOf(site))), ("needed_pa", Text(site, QuantityKind.Pressure, needed))));
        }
    }

    /// <summary>What is worth a thought.</summary>
    public static IEnumerable<Fact> Advice(RamSite site, ExpectedFigures expected) =>
    [
        .. AboutSupply(site),
        .. expected.Hydraulics.Sections.SelectMany((section, i) => AboutWaveSpeed(site, section, i, expected.Hydraulics.Water)),
        .. PipeworkRemarks.Of(site, expected),
        .. expected.Ram.Notes.Select(AboutProportions),
        .. AboutPeaks(site, expected),
        .. AboutSensor(site),
        .. SensingRemarks.Of(site, expected),
        .. AboutDelivery(site),
        .. AboutTheRest(site, expected),
    ];

    private static Fact AboutProportions(ProportionNote note) => note.Code switch
    {
        ProportionCode.BoresLong => Fact.Of("site.bores-long", ("bores", note.Value)),
        ProportionCode.Reach => Fact.Of("site.reach-unusual", ("reach", note.Value), ("low", note.Low), ("high", note.High)),
        ProportionCode.Lift => Fact.Of("site.lift-high", ("lift", note.Value)),
        ProportionCode.SmallFall => Fact.Of("site.head-small"),
        _ => Fact.Of("site.delivers-nothing"),
    };

    // A tank that fills from below may stand higher than its pipe is long, so this is no contradiction.
    private static IEnumerable<Fact> AboutDelivery(RamSite site)
    {
        if (site.Delivery.PipeLengthM is { } length && length < site.Delivery.HeadM)
        {
            yield return Fact.Of("site.delivery-pipe-short", ("length_m", Text(site, QuantityKind.Length, length)), ("head_m", Text(site, QuantityKind.Length, site.Delivery.HeadM)));
        }
    }

    private static IEnumerable<Fact> AboutSupply(RamSite site)
    {
        if (site.DrivePipe.LengthM < site.Supply.HeadM)
        {
            yield return Fact.Of("site.drive-pipe-shorter-than-head", ("length_m", Text(site, QuantityKind.Length, site.DrivePipe.LengthM)), ("head_m", Text(site, QuantityKind.Length, site.Supply.HeadM)));
        }

        if (site.Supply.HeadUncertaintyM is { } uncertainty && uncertainty > LargestShareOfHead * site.Supply.HeadM)
        {
            yield return Fact.Of("site.supply-head-vague", ("uncertainty_m", Text(site, QuantityKind.Length, uncertainty)), ("head_m", Text(site, QuantityKind.Length, site.Supply.HeadM)));
        }
    }

    private static IEnumerable<Fact> AboutWaveSpeed(RamSite site, SectionHydraulics section, int index, WaterProperties water)
    {
        double speed = section.Reach.WaveSpeedMPerS;
        Quantity used = Text(site, QuantityKind.Velocity, speed);
        bool isMixed = site.DrivePipe.IsMixed;
        if (section.Source == WaveSpeedSource.WallAssumed)
        {
            yield return isMixed
                ? Fact.Of("site.wall-unknown-section", ("section", index + 1), ("speed_m_per_s", used))
                : Fact.Of("site.wall-unknown", ("speed_m_per_s", used));
        }
        else if (section.Source == WaveSpeedSource.Assumed)
        {
            yield return isMixed
                ? Fact.Of("site.material-unknown-section", ("section", index + 1), ("speed_m_per_s", used))
                : Fact.Of("site.material-unknown", ("speed_m_per_s", used));
        }
        else if (SiteDefaults.PlausibleWaveSpeedMPerS(section.Section, water) is { } plausible
            && (speed < plausible.Low * (1 - FarFromComputed) || speed > plausible.High * (1 + FarFromComputed)))
        {
            var range = new Quantity(QuantityKind.Velocity, plausible.Low, site.Units, High: plausible.High);
            Fact remedy = speed < plausible.Low ? Fact.Of("site.wave-speed-low") : Fact.Of("site.wave-speed-high");
            yield return isMixed
                ? Fact.Of("site.wave-speed-far-section", ("section", index + 1), ("speed_m_per_s", used), ("range", range), ("remedy", remedy))
                : Fact.Of("site.wave-speed-far", ("speed_m_per_s", used), ("range", range), ("remedy", remedy));
        }
    }

    private static IEnumerable<Fact> AboutPeaks(RamSite site, ExpectedFigures expected)
    {
        Band ceiling = expected.Ram.PeakCeilingPa;
        if (TopOf(site) < ceiling.High && TopOf(site) >= LeastTopPa(expected))
        {
            (Quantity highest, Quantity top) = (Text(site, QuantityKind.Pressure, ceiling.High), Text(site, QuantityKind.Pressure, TopOf(site)));
            yield return expected.Sensing.RangeToBuyPa is { } range
                ? Fact.Of("site.peak-over-range-buy", ("ceiling_pa", highest), ("top_pa", top), ("range_pa", Text(site, QuantityKind.Pressure, range)))
                : Fact.Of("site.peak-over-range", ("ceiling_pa", highest), ("top_pa", top));
        }
        else if (site.Sensor.RangeHighPa - site.Sensor.RangeLowPa > WideRangeOverCeiling * ceiling.High)
        {
            yield return Fact.Of("site.range-wide", ("ceiling_pa", Text(site, QuantityKind.Pressure, ceiling.High)));
        }

        foreach ((Fact part, double rating) in Ratings(site).Where(r => r.RatingPa < ceiling.High))
        {
            yield return Fact.Of("site.peak-over-rating", ("ceiling_pa", Text(site, QuantityKind.Pressure, ceiling.High)), ("part", part), ("rating_pa", Text(site, QuantityKind.Pressure, rating)));
        }
    }

    private static IEnumerable<(Fact Part, double RatingPa)> Ratings(RamSite site)
    {
        for (int i = 0; i < site.DrivePipe.Sections.Count; i++)
        {
            if (site.DrivePipe.Sections[i].PressureRatingPa is { } pipe)
            {
                yield return (site.DrivePipe.IsMixed ? Fact.Of("site.part-section", ("section", i + 1)) : Fact.Of("site.part-drive-pipe"), pipe);
            }
        }

        foreach (Fitting fitting in site.Fittings)
        {
            if (fitting.PressureRatingPa is { } rating)
            {
                yield return (Fact.Of("site.part-named", ("name", fitting.Name)), rating);
            }
        }
    }

    private static IEnumerable<Fact> AboutSensor(RamSite site)
    {
        if (site.Sensor.RangeLowPa >= 0)
        {
            yield return Fact.Of("site.no-suction-read");
        }
    }

    private static IEnumerable<Fact> AboutTheRest(RamSite site, ExpectedFigures expected)
    {
        if (site.Logger.SamplingRateHz is { } rate && rate < expected.LeastSamplingRateHz)
        {
            yield return Fact.Of("site.sampled-too-slowly", ("rate_hz", Text(site, QuantityKind.Frequency, rate)), ("least_hz", Text(site, QuantityKind.Frequency, expected.LeastSamplingRateHz, 4)));
        }

        double perBeatM3 = expected.Ram.DeliveredM3PerS.High * 60 / expected.Ram.BeatsPerMin.High;
        if (site.AirVessel.VolumeM3 is { } vessel && vessel < LeastVesselOverBeat * perBeatM3)
        {
            yield return Fact.Of("site.vessel-small", ("vessel_m3", Text(site, QuantityKind.Volume, vessel)), ("beat_m3", Text(site, QuantityKind.Volume, perBeatM3)));
        }
    }

    // A soft pipe may not be able to make half as much again: then its own ceiling is what the sensor must reach.
    private static double LeastTopPa(ExpectedFigures expected) => Math.Max(
        expected.DeliveryPa,
        Math.Min(LeastPeakOverDelivery * expected.DeliveryPa, expected.Ram.PeakCeilingPa.High));

    private static double TopOf(RamSite site) =>
        SiteSensing.PathOf(site).UsablePa.High;

    private static Quantity Text(RamSite site, QuantityKind kind, double value, int digits = 3) => new(kind, value, site.Units, digits);
}
