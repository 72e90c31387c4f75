namespace Clackbeat.Hydraulics;

/// <summary>A figure that is only known to lie between two ends, in the unit its owner states.</summary>
/// <param name="Low">Lower end.</param>
/// <param name="High">Upper end.</param>
public readonly record struct Band(double Low, double High)
{
    /// <summary>Middle of the band.</summary>
    public double Middle => (Low + High) / 2;

    /// <summary>Whether a value lies within, ends included.</summary>
    public bool Contains(double value) => value >= Low && value <= High;

    /// <summary>The band that spans some values.</summary>
    internal static Band Of(IEnumerable<double> values)
    {
        var list = values.ToList();
        return new Band(list.Min(), list.Max());
    }
}
