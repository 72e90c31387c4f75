namespace Clackbeat.VirtualRam.Field;

/// <summary>All that is random in a drawn ram, from one seed: the same seed gives the same throws.</summary>
public sealed class Dice
{
    private readonly Random _random;

    /// <summary>Dice of a seed.</summary>
    /// <param name="seed">The seed.</param>
    public Dice(int seed) => _random = new Random(seed);

    /// <summary>Evenly between two ends.</summary>
    public double Between(double low, double high) => low + ((high - low) * _random.NextDouble());

    /// <summary>Evenly in the logarithm between two ends above 0.</summary>
    public double Log(double low, double high) => low * Math.Pow(high / low, _random.NextDouble());

    /// <summary>Normally around 0.</summary>
    public double Normal(double deviation) => MathNet.Numerics.Distributions.Normal.Sample(_random, 0, deviation);

    /// <summary>True in a share of throws.</summary>
    public bool Chance(double share) => _random.NextDouble() < share;

    /// <summary>One of several, each as likely.</summary>
    public T Pick<T>(params T[] from)
    {
        ArgumentNullException.ThrowIfNull(from);
        return from[_random.Next(from.Length)];
    }

    /// <summary>A seed for other dice.</summary>
    public int Seed() => _random.Next();
}
