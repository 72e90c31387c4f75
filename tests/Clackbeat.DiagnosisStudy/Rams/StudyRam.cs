using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Site.Model;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.DiagnosisStudy.Rams;

/// <summary>
/// A random ram: what its site file says, and what it really is, which differs as it does in life. Wherever the virtual
/// ram has a parameter that nobody would know, the parameter is drawn over a wide range, so that nothing can be learnt
/// that holds for one set of parameters only.
/// </summary>
/// <param name="Number">Number of the ram; it is also the seed.</param>
/// <param name="Site">The site file.</param>
/// <param name="Ram">The ram when it is well.</param>
/// <param name="Sensor">Its sensor.</param>
public sealed record StudyRam(int Number, RamSite Site, RamParameters Ram, SensorParameters Sensor)
{
    /// <summary>Rams of smaller numbers are wild in every way.</summary>
    public const int Mixed = 1000;

    // Even a ram of usual make is its own.
    private const double LeastWild = 0.2;

    /// <summary>Whether a ram, by its number as text, is one that is not wild in every way.</summary>
    public static bool IsMixed(string number) => int.Parse(number, System.Globalization.CultureInfo.InvariantCulture) >= Mixed;

    /// <summary>Makes the ram of a number; null when the site can't carry a sound one.</summary>
    public static StudyRam? Make(int number)
    {
        var dice = new Dice(number);
        RamSite site = SiteOf(dice);
        RamDesign design = RamDesigner.Design(site, dice.Chance(0.5) ? RamCharacter.Lively : RamCharacter.Smooth);
        return design.Warnings.Count > 0 ? null : new StudyRam(number, site, Vary(design.Ram, number < Mixed ? 1 : dice.Between(LeastWild, 1), dice), design.Sensor);
    }

    private static RamSite SiteOf(Dice dice)
    {
        double supply = dice.Log(1, 6);
        double length = Math.Max(1.3 * supply, dice.Log(4, 40));
        (PipeMaterial material, double waveSpeed) = dice.Pick<(PipeMaterial, double)>(
            (PipeMaterial.GalvanisedSteel, dice.Between(1150, 1350)),
            (PipeMaterial.PvcU, dice.Between(380, 560)),
            (PipeMaterial.Pe100, dice.Between(200, 340)));
        return new RamSite
        {
            Name = "a ram of the study",
            Supply = new Supply { HeadM = supply, HeadUncertaintyM = 0.02, WaterTemperatureC = 12 },
            DrivePipe = new DrivePipe
            {
                Material = material,
                LengthM = length,
                BoreM = dice.Log(0.025, 0.102),
                WaveSpeedMPerS = waveSpeed,
            },
            Delivery = new Delivery { HeadM = supply * dice.Log(3, 12) },
            Sensor = new Sensor { RangeLowPa = 0, RangeHighPa = 1e6 },
        };
    }

    /// <summary>
    /// How far the ram strays from usual make is given first, and then everything is drawn within that: a ram that is extreme
    /// in every way at once is rarer in life than in a product of wide ranges.
    /// </summary>
    private static RamParameters Vary(RamParameters ram, double wild, Dice dice)
    {
        double Log(double low, double high) => dice.Log(Math.Pow(low, wild), Math.Pow(high, wild));
        double Bounce(double usual, double high) => usual + (wild * dice.Between(0.02 - usual, high - usual));
        return ram with
        {
            // Twice the usual step makes the study four times as quick; what its coarseness adds is one more way to differ.
            LongestStepS = 2e-4,
            BeatScatter = ram.BeatScatter * Log(0.3, 2),
            Supply = ram.Supply with
            {
                HeadM = ram.Supply.HeadM + dice.Normal(0.01),
                LossCoefficient = ram.Supply.LossCoefficient * Log(0.6, 1.7),
            },
            DrivePipe = ram.DrivePipe with
            {
                WaveSpeedMPerS = ram.DrivePipe.WaveSpeedMPerS * (1 + dice.Normal(0.03)),
                RoughnessM = ram.DrivePipe.RoughnessM * Log(0.5, 2),
                SlowGive = ram.DrivePipe.SlowGive * Log(0.2, 1.5),
            },
            Body = new BodyParameters
            {
                ComplianceM2 = ram.Body.ComplianceM2 * Log(0.5, 2),
                GasM3 = ram.Body.GasM3 * Log(0.1, 3),
            },
            WasteValve = ram.WasteValve with
            {
                MassKg = ram.WasteValve.MassKg * Log(0.6, 1.6),
                DampingNSPerM = ram.WasteValve.DampingNSPerM * Log(0.5, 2),
                PreloadN = ram.WasteValve.PreloadN * (1 + (wild * dice.Between(-0.2, 0.1))),
                Rebound = Bounce(ram.WasteValve.Rebound, 0.4),
                SeatStiffnessNPerM = ram.WasteValve.SeatStiffnessNPerM * Log(0.5, 3),
            },
            DeliveryValve = ram.DeliveryValve with
            {
                MassKg = ram.DeliveryValve.MassKg * Log(0.4, 2),
                DampingNSPerM = ram.DeliveryValve.DampingNSPerM * Log(0.5, 2),
                PreloadN = ram.DeliveryValve.PreloadN * Log(0.4, 2),
                InertanceS2PerM2 = ram.DeliveryValve.InertanceS2PerM2 * Log(0.3, 2.5),
                Rebound = Bounce(ram.DeliveryValve.Rebound, 0.5),
                SeatStiffnessNPerM = ram.DeliveryValve.SeatStiffnessNPerM * Log(0.5, 3),
            },
            AirVessel = ram.AirVessel with { GasM3 = ram.AirVessel.GasM3 * Log(0.5, 2) },
            DeliveryMain = ram.DeliveryMain with
            {
                LengthM = ram.DeliveryMain.LengthM * Log(0.5, 2),
                LossCoefficient = ram.DeliveryMain.LossCoefficient * Log(0.5, 4),
            },
        };
    }
}

/// <summary>All that is random in the study, from one seed.</summary>
public sealed class Dice(int seed)
{
    private readonly Random _random = new(seed);

    public double Between(double low, double high) => low + ((high - low) * _random.NextDouble());

    public double Log(double low, double high) => low * Math.Pow(high / low, _random.NextDouble());

    public double Normal(double deviation) => MathNet.Numerics.Distributions.Normal.Sample(_random, 0, deviation);

    public bool Chance(double share) => _random.NextDouble() < share;

    public T Pick<T>(params T[] from) => from[_random.Next(from.Length)];

    public int Seed() => _random.Next();
}
