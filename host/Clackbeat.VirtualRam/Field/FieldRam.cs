using Clackbeat.Site.Model;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.VirtualRam.Field;

/// <summary>
/// A ram drawn from everything that varies in the field: what its site file says, and what it really is, which knows less and is a
/// little wrong. The one place that draws rams for tests, studies and tuning.
/// </summary>
/// <param name="Set">What it may be used for.</param>
/// <param name="Number">Its number in that set.</param>
/// <param name="Site">The site file of its keeper.</param>
/// <param name="Built">The site as it really is built.</param>
/// <param name="Ram">The ram when it is well.</param>
/// <param name="Sensor">Its sensor, with its errors.</param>
public sealed record FieldRam(FieldSet Set, int Number, RamSite Site, RamSite Built, RamParameters Ram, SensorParameters Sensor)
{
    private const int Sets = 3;

    // Even a ram of usual make is its own.
    private const double LeastWild = 0.2;

    /// <summary>The seed of a ram: no two sets share one.</summary>
    /// <param name="set">The set.</param>
    /// <param name="number">Number in the set, from 0.</param>
    public static int SeedOf(FieldSet set, int number)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(number);
        return checked((number * Sets) + (int)set);
    }

    /// <summary>Draws a ram; null when the site that was drawn can't carry a sound one.</summary>
    /// <param name="set">The set.</param>
    /// <param name="number">Number in the set, from 0.</param>
    /// <param name="domain">Ends and shares; null takes the usual ones.</param>
    public static FieldRam? Make(FieldSet set, int number, FieldDomain? domain = null)
    {
        domain ??= FieldDomain.Usual;
        var dice = new Dice(SeedOf(set, number));
        RamSite built = FieldSite.Built(domain, dice);
        RamDesign design = RamDesigner.Design(built, dice.Chance(domain.LivelyShare) ? RamCharacter.Lively : RamCharacter.Smooth, domain.Detail);
        if (design.Warnings.Count > 0)
        {
            return null;
        }

        RamParameters ram = RamVariation.Of(design.Ram, dice.Between(LeastWild, 1), dice);
        return new FieldRam(
            set, number, FieldSite.Told(built, domain, dice), built, Pipework(ram, design.Ram, built, domain, dice), Sensing(design.Sensor, domain, dice));
    }

    /// <summary>The first rams of a set that are sound.</summary>
    /// <param name="set">The set.</param>
    /// <param name="count">How many.</param>
    /// <param name="domain">Ends and shares; null takes the usual ones.</param>
    public static IEnumerable<FieldRam> Of(FieldSet set, int count, FieldDomain? domain = null) =>
        Enumerable.Range(0, int.MaxValue / Sets).Select(number => Make(set, number, domain)).OfType<FieldRam>().Take(count);

    private static RamParameters Pipework(RamParameters ram, RamParameters designed, RamSite built, FieldDomain domain, Dice dice)
    {
        double sound = Hydraulics.Water.WaterProperties.At(built.Supply.WaterTemperatureC!.Value).SoundSpeedMPerS;
        double modulus = dice.Between(domain.ModulusRatio.Low, domain.ModulusRatio.High);
        double creep = dice.Log(domain.CreepRatio.Low, domain.CreepRatio.High);
        double gas = dice.Log(domain.GasShare.Low, domain.GasShare.High);
        double rough = dice.Between(domain.RoughnessRatio.Low, domain.RoughnessRatio.High);
        PipeParameters Vary(PipeParameters pipe) => pipe with
        {
            WaveSpeedMPerS = Stiffer(pipe.WaveSpeedMPerS, sound, modulus),
            RoughnessM = pipe.RoughnessM * rough,
            Creep = [.. pipe.Creep.Select(e => e with { Share = e.Share * creep })],
            GasShare = gas,
        };
        return ram with
        {
            DrivePipe = Vary(designed.DrivePipe),
            Upstream = designed.Upstream.Count == 0 ? designed.Upstream : [.. designed.Upstream.Select(Vary)],
            UnsteadyFriction = designed.UnsteadyFriction * dice.Between(domain.UnsteadyRatio.Low, domain.UnsteadyRatio.High),
            Supply = ram.Supply with
            {
                HeadM = built.Supply.HeadM,
                LossCoefficient = dice.Log(domain.IntakeLoss.Low, domain.IntakeLoss.High),
                StandPipe = WithNeighbour(ram, built, dice),
            },
        };
    }

    // Only the wall's part of the give goes with its modulus.
    private static double Stiffer(double waveSpeed, double sound, double ratio)
    {
        double water = 1 / (sound * sound);
        return 1 / Math.Sqrt(water + ((1 / (waveSpeed * waveSpeed)) - water) / ratio);
    }

    private static StandPipeParameters? WithNeighbour(RamParameters ram, RamSite built, Dice dice) =>
        ram.Supply.StandPipe is { } stand && built.Supply.OtherRams > 0
            ? stand with
            {
                // A ram of the same kind draws about as much as this one.
                NeighbourM3PerS = dice.Between(0.3, 0.7) * ram.DrivePipe.AreaM2,
                NeighbourPeriodS = dice.Log(0.6, 2),
            }
            : ram.Supply.StandPipe;

    private static SensorParameters Sensing(SensorParameters sensor, FieldDomain domain, Dice dice) => sensor with
    {
        OffsetPa = dice.Normal(domain.ZeroPa),
        Gain = 1 + dice.Normal(domain.Gain),
        NoisePa = sensor.NoisePa * dice.Log(0.5, 4),
        RateHz = dice.Pick([.. domain.RatesHz]),
        JitterS = dice.Pick(0, 0, 1.2e-4),
    };
}
