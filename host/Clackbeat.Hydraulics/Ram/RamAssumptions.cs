namespace Clackbeat.Hydraulics.Ram;

/// <summary>What <see cref="ExpectedRam"/> takes for the parts of a ram that nobody measured. Set what is known.</summary>
public sealed record RamAssumptions
{
    /// <summary>
    /// Closing velocity over terminal velocity. Common practice; always below 1 (H. W. Iversen, J. Fluids Eng. 97 (1975) 191).
    /// </summary>
    public Band ClosingFraction { get; init; } = new(0.4, 0.85);

    /// <summary>Closing velocity itself, where it was measured [m/s]; takes the place of the fraction.</summary>
    public Band? ClosingVelocityMPerS { get; init; }

    /// <summary>
    /// Loss coefficient of the open waste valve on the drive pipe's velocity head. Common practice; the AguaClara ram's
    /// terminal velocity of 1.603 m/s implies about 9.
    /// </summary>
    public Band WasteValveLoss { get; init; } = new(2, 10);

    /// <summary>Loss coefficient of entrance, strainer and bends, without the velocity head.</summary>
    public double MinorLoss { get; init; } = 0.8;

    /// <summary>Length of the recoil in pipe periods: at least the fall and its return. Common practice.</summary>
    public Band RecoilPipePeriods { get; init; } = new(1, 4);

    /// <summary>Travel time of the waste valve's plug [s]; usually 10 to 30 ms.</summary>
    public double ClosureTimeS { get; init; } = 0.02;

    internal IEnumerable<double> ClosingVelocities(double terminalMPerS)
    {
        // A given velocity may lie above what this loss allows: the valve then is opener than assumed.
        double limit = 0.99 * terminalMPerS;
        return ClosingVelocityMPerS is { } given
            ? [Math.Min(given.Low, limit), Math.Min(given.High, limit)]
            : [ClosingFraction.Low * terminalMPerS, ClosingFraction.High * terminalMPerS];
    }
}
