using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
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
    private const double LongTapLineM = 0.3;

    /// <summary>Contradictions between the site and what physics makes of it.</summary>
    public static IEnumerable<SiteProblem> Problems(RamSite site, SiteValues values, ExpectedFigures expected)
    {
        var soundSpeed = expected.Hydraulics.Water.SoundSpeedMPerS;
        if (site.DrivePipe.WaveSpeedMPerS is { } waveSpeed && waveSpeed > soundSpeed)
        {
            yield return new SiteProblem(
                values.LineOf("drive_pipe", "wave_speed"),
                $"[drive_pipe] wave_speed ({Text(site, QuantityKind.Velocity, waveSpeed)}) is above the speed of sound in "
                + $"open water ({Text(site, QuantityKind.Velocity, soundSpeed)}); no pipe makes it faster.");
        }

        var needed = LeastTopPa(expected);
        if (TopOf(site) < needed)
        {
            yield return new SiteProblem(
                values.LineOf("sensor", "range"),
                $"[sensor] range ends at {Text(site, QuantityKind.Pressure, TopOf(site))}, but every beat is expected to "
                + $"reach {Text(site, QuantityKind.Pressure, needed)} or more at this delivery head; peaks would be cut off.");
        }
    }

    /// <summary>What is worth a thought.</summary>
    public static IEnumerable<string> Advice(RamSite site, ExpectedFigures expected) =>
    [
        .. AboutSupply(site),
        .. AboutWaveSpeed(site, expected.Hydraulics),
        .. expected.Ram.Notes,
        .. AboutPeaks(site, expected),
        .. AboutSensor(site),
        .. AboutTheRest(site, expected),
    ];

    private static IEnumerable<string> AboutSupply(RamSite site)
    {
        if (site.Supply.HeadUncertaintyM is { } uncertainty && uncertainty > LargestShareOfHead * site.Supply.HeadM)
        {
            yield return $"The supply head is only known to {Text(site, QuantityKind.Length, uncertainty)} in "
                + $"{Text(site, QuantityKind.Length, site.Supply.HeadM)}; every efficiency is as uncertain.";
        }
    }

    private static IEnumerable<string> AboutWaveSpeed(RamSite site, SiteHydraulics hydraulics)
    {
        var used = Text(site, QuantityKind.Velocity, hydraulics.WaveSpeedMPerS);
        if (hydraulics.WaveSpeedSource == WaveSpeedSource.WallAssumed)
        {
            yield return $"The wall isn't known; the wave speed ({used}) stands on a wall of a tenth of the bore.";
        }
        else if (hydraulics.WaveSpeedSource == WaveSpeedSource.Assumed)
        {
            yield return $"The material isn't known; the wave speed ({used}) is a round figure until wave_speed is given or "
                + "a record has measured it.";
        }
        else if (SiteDefaults.PlausibleWaveSpeedMPerS(site, hydraulics.Water) is { } plausible
            && (hydraulics.WaveSpeedMPerS < plausible.Low * (1 - FarFromComputed)
                || hydraulics.WaveSpeedMPerS > plausible.High * (1 + FarFromComputed)))
        {
            var range = QuantityFormat.FormatRange(QuantityKind.Velocity, plausible.Low, plausible.High, site.Units, digits: 3);
            yield return $"wave_speed is {used}, while material, bore and wall give {range}. "
                + (hydraulics.WaveSpeedMPerS < plausible.Low
                    ? "Air in the water lowers it; so does a thinner wall than written."
                    : "Check the wall and the material.");
        }
    }

    private static IEnumerable<string> AboutPeaks(RamSite site, ExpectedFigures expected)
    {
        var ceiling = expected.Ram.PeakCeilingPa;
        if (TopOf(site) < ceiling.High && TopOf(site) >= LeastTopPa(expected))
        {
            yield return $"A hard beat may reach {Text(site, QuantityKind.Pressure, ceiling.High)}, the sensor ends at "
                + $"{Text(site, QuantityKind.Pressure, TopOf(site))}. Most beats stay far below that ceiling; look for clipped "
                + "samples in the first record.";
        }
        else if (site.Sensor.RangeHighPa - site.Sensor.RangeLowPa > WideRangeOverCeiling * ceiling.High)
        {
            yield return $"The sensor's range is several times what this ram can reach ({Text(site, QuantityKind.Pressure, ceiling.High)}); "
                + "a narrower one reads the open phase, a few kPa, more truly.";
        }

        foreach (var (part, rating) in Ratings(site).Where(r => r.RatingPa < ceiling.High))
        {
            yield return $"A hard beat may reach {Text(site, QuantityKind.Pressure, ceiling.High)}, above the rating of {part} "
                + $"({Text(site, QuantityKind.Pressure, rating)}). Measure the peaks, then run: clackbeat rating";
        }
    }

    private static IEnumerable<(string Part, double RatingPa)> Ratings(RamSite site)
    {
        if (site.DrivePipe.PressureRatingPa is { } pipe)
        {
            yield return ("the drive pipe", pipe);
        }

        foreach (var fitting in site.Fittings)
        {
            if (fitting.PressureRatingPa is { } rating)
            {
                yield return ($"\"{fitting.Name}\"", rating);
            }
        }
    }

    private static IEnumerable<string> AboutSensor(RamSite site)
    {
        if (site.Sensor.RangeLowPa >= 0)
        {
            yield return "The sensor reads no suction (its range starts at 0 or above); the recoil after each beat is cut off.";
        }

        if (site.Sensor.TapLineLengthM is { } line && line > LongTapLineM)
        {
            yield return $"The tap line is {Text(site, QuantityKind.Length, line)} long; it rings on its own and may hold air, "
                + "which hides the peaks. Sit the sensor on the body.";
        }
    }

    private static IEnumerable<string> AboutTheRest(RamSite site, ExpectedFigures expected)
    {
        if (site.Logger.SamplingRateHz is { } rate && rate < expected.LeastSamplingRateHz)
        {
            yield return $"The logger takes {Text(site, QuantityKind.Frequency, rate)}; this ram wants at least "
                + $"{Text(site, QuantityKind.Frequency, expected.LeastSamplingRateHz, 4)}, or peaks fall between the samples.";
        }

        var perBeatM3 = expected.Ram.DeliveredM3PerS.High * 60 / expected.Ram.BeatsPerMin.High;
        if (site.AirVessel.VolumeM3 is { } vessel && vessel < LeastVesselOverBeat * perBeatM3)
        {
            yield return $"The air vessel ({Text(site, QuantityKind.Volume, vessel)}) is small for up to "
                + $"{Text(site, QuantityKind.Volume, perBeatM3)} a beat; 20 to 50 times that is common practice.";
        }
    }

    // A soft pipe may not be able to make half as much again: then its own ceiling is what the sensor must reach.
    private static double LeastTopPa(ExpectedFigures expected) => Math.Max(
        expected.DeliveryPa,
        Math.Min(LeastPeakOverDelivery * expected.DeliveryPa, expected.Ram.PeakCeilingPa.High));

    private static double TopOf(RamSite site) =>
        SiteSensing.PathOf(site).UsablePa.High;

    private static string Text(RamSite site, QuantityKind kind, double value, int digits = 3) =>
        QuantityFormat.Format(kind, value, site.Units, digits);
}
