namespace Clackbeat.Sensing.Conditioning;

/// <summary>Two resistors that bring a voltage down to the converter's window.</summary>
/// <param name="UpperOhm">Resistor towards the source [Ω]; 0 for none.</param>
/// <param name="LowerOhm">Resistor towards ground [Ω].</param>
public readonly record struct Divider(double UpperOhm, double LowerOhm)
{
    /// <summary>Share of the voltage that is left, Rl/(Ru + Rl).</summary>
    public double Share => LowerOhm / (UpperOhm + LowerOhm);

    /// <summary>Resistance that the converter and its filter see, Ru ∥ Rl [Ω] (Thévenin).</summary>
    public double SourceOhm => UpperOhm * LowerOhm / (UpperOhm + LowerOhm);

    /// <summary>Share left where something draws from the divider's middle.</summary>
    /// <param name="loadOhm">Resistance of the load to ground [Ω].</param>
    public double ShareUnderLoad(double loadOhm) => Share * loadOhm / (loadOhm + SourceOhm);

    /// <summary>Share left where the source has a resistance of its own.</summary>
    /// <param name="outputOhm">Output resistance of the sensor [Ω].</param>
    public double ShareBehind(double outputOhm) => LowerOhm / (outputOhm + UpperOhm + LowerOhm);

    /// <summary>
    /// Greatest relative error of the share when both resistors are off by their tolerance against each other:
    /// to first order 2 (1 − share) × tolerance; worked here without that approximation.
    /// </summary>
    /// <param name="tolerance">Tolerance of each resistor, as a share.</param>
    public double WorstErrorShare(double tolerance)
    {
        double high = new Divider(UpperOhm * (1 - tolerance), LowerOhm * (1 + tolerance)).Share;
        double low = new Divider(UpperOhm * (1 + tolerance), LowerOhm * (1 - tolerance)).Share;
        return Math.Max(high - Share, Share - low) / Share;
    }

    /// <summary>Likely relative error: both tolerances as independent, √2 (1 − share) × tolerance (root sum of squares).</summary>
    /// <param name="tolerance">Tolerance of each resistor, as a share.</param>
    public double LikelyErrorShare(double tolerance) => Math.Sqrt(2) * (1 - Share) * tolerance;
}
