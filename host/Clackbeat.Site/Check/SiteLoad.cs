using System.Globalization;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Hydraulics.Transients;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;

namespace Clackbeat.Site.Check;

/// <summary>What a site file says of the strength of its drive pipe; the load itself comes from a record or a person.</summary>
public static class SiteLoad
{
    // The speed of sound in a water-filled cast fitting or hose line, rounded down [m/s].
    private const double TapLineSoundMPerS = 1400;

    // Speed of a wave by a site's own wave speed, where its spread can't be worked out: two per cent either way.
    private const double WaveSpeedShare = 0.02;

    /// <summary>The pipe with its fittings, pipe period and peak ceiling, and no measured pressure.</summary>
    /// <param name="site">A site without contradictions.</param>
    /// <param name="closingVelocityMPerS">Velocity in the drive pipe as the waste valve shuts, where it was measured [m/s]; null takes what such a ram is expected to reach.</param>
    /// <param name="closingVelocityU">Its expanded uncertainty, k = 2 [m/s].</param>
    public static PipeLoad Of(RamSite site, double? closingVelocityMPerS = null, double? closingVelocityU = null)
    {
        var expected = ExpectedFigures.For(site);
        (double ceilingPa, double ceilingU) = closingVelocityMPerS is { } velocity
            ? Ceiling(site, expected.Hydraulics, velocity, closingVelocityU ?? 0)
            : (expected.Ram.PeakCeilingPa.Middle, expected.Ram.PeakCeilingPa.High - expected.Ram.PeakCeilingPa.Middle);
        return new PipeLoad
        {
            Material = site.DrivePipe.Material,
            BoreM = site.DrivePipe.BoreM,
            WallM = site.DrivePipe.WallM,
            OutsideDiameterM = site.DrivePipe.OutsideDiameterM,
            PipeClass = site.DrivePipe.PressureClass,
            PrintedRatingPa = site.DrivePipe.PressureRatingPa,
            Joint = JointOf(site.DrivePipe.Threaded),
            TemperatureC = site.DrivePipe.HighestTemperatureC ?? site.Supply.WaterTemperatureC,
            PipePeriodS = expected.Ram.PipePeriodS,
            AtmospherePa = site.AtmospherePa,
            SensorResponseS = ResponseOf(site.Sensor),
            CeilingPa = ceilingPa,
            CeilingUncertaintyPa = ceilingU,
            CeilingIsMeasured = closingVelocityMPerS is not null,
            Stretches = site.DrivePipe.IsMixed ? [.. site.DrivePipe.Sections.Select(StretchOf)] : [],
            Fittings = [.. site.Fittings.Select(f => new RatedFitting(f.Name, f.PressureRatingPa))],
        };
    }

    /// <summary>Time the sensor with its line takes from 10 to 90 % of a step [s]; null where the file says nothing of either.</summary>
    /// <param name="sensor">The sensor.</param>
    public static double? ResponseOf(Sensor sensor)
    {
        // A water line swings with a quarter wave in it, f = c/(4L), and a first-order rise time is 0.35/f; rise times in a row add
        // by their squares. Air in the line makes it far worse, and only a record can show that.
        double? line = 0.35 * 4 * sensor.TapLineLengthM / TapLineSoundMPerS;
        return sensor.ResponseTimeS is null && line is null
            ? null
            : Math.Sqrt(Math.Pow(sensor.ResponseTimeS ?? 0, 2) + Math.Pow(line ?? 0, 2));
    }

    private static PipeStretch StretchOf(PipeSection section, int index) => new(
        string.Create(CultureInfo.InvariantCulture, $"section {index + 1} from the intake ({MaterialNames.Of(section.Material)}, {1000 * section.BoreM:0.#} mm bore)"),
        section.Material,
        section.BoreM)
    {
        WallM = section.WallM,
        OutsideDiameterM = section.OutsideDiameterM,
        PipeClass = section.PressureClass,
        PrintedRatingPa = section.PressureRatingPa,
        Joint = JointOf(section.Threaded),
    };

    private static PipeJoint JointOf(bool? threaded) => threaded switch
    {
        true => PipeJoint.Threaded,
        false => PipeJoint.Plain,
        null => PipeJoint.Unknown,
    };

    private static (double Pa, double U) Ceiling(RamSite site, SiteHydraulics hydraulics, double velocity, double velocityU)
    {
        double density = hydraulics.Water.DensityKgPerM3;
        double waveSpeed = hydraulics.Pipe.AtRam.WaveSpeedMPerS * hydraulics.Pipe.EchoGain;
        double spread = hydraulics.WaveSpeedSource != WaveSpeedSource.Given
            && SiteDefaults.PlausibleWaveSpeedMPerS(site, hydraulics.Water) is { } band
                ? Math.Max(band.High - waveSpeed, waveSpeed - band.Low)
                : WaveSpeedShare * waveSpeed;
        // JCGM 100:2008 §5.1.2: independent parts add by their squares.
        return (
            Surge.CeilingPa(hydraulics.PressurePa(site.Supply.HeadM), density, waveSpeed, velocity),
            density * Math.Sqrt(Math.Pow(waveSpeed * velocityU, 2) + Math.Pow(velocity * spread, 2)));
    }
}
