namespace Clackbeat.Hydraulics.Pipes;

/// <summary>
/// Creep of a plastic pipe's wall under a beat's load, as Kelvin–Voigt elements in a row:
/// J(t) = J_0 + Σ J_j (1 − exp(−t/τ_j)). The prompt part J_0 is in the wave speed; the rest comes late and damps the
/// wave. From Data/creep.csv, with the source of each row. Metal walls don't creep.
/// </summary>
/// <remarks>
/// Use: 0.05 s to some 10 s, the range the elements were found in. One pipe differs from the next: take
/// <see cref="RelativeUncertainty"/> as the standard uncertainty of all shares together.
/// </remarks>
public sealed record WallCreep
{
    private static readonly Dictionary<PipeMaterial, WallCreep> Table = Read();

    private WallCreep()
    {
    }

    /// <summary>The material.</summary>
    public required PipeMaterial Material { get; init; }

    /// <summary>Wall temperature that the figures hold for [°C].</summary>
    public required double TemperatureC { get; init; }

    /// <summary>Prompt compliance J_0 [1/Pa].</summary>
    public required double PromptPerPa { get; init; }

    /// <summary>The elements, from quick to slow.</summary>
    public required IReadOnlyList<CreepElement> Elements { get; init; }

    /// <summary>Standard uncertainty of the shares, as a part of them.</summary>
    public required double RelativeUncertainty { get; init; }

    /// <summary>Creep of a material at the temperature it was measured; null for a wall that doesn't creep or isn't known.</summary>
    /// <param name="material">The material.</param>
    public static WallCreep? TryGet(PipeMaterial material) => Table.GetValueOrDefault(material);

    /// <summary>Retarded compliance after a step of load, over the prompt one: Σ (J_j/J_0)(1 − exp(−t/τ_j)).</summary>
    /// <param name="timeS">Time since the step [s], 0 or more.</param>
    public double ShareAfter(double timeS)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(timeS);
        return Elements.Sum(e => e.Share * (1 - Math.Exp(-timeS / e.RetardationS)));
    }

    /// <summary>
    /// The same wall at another temperature. The apparent modulus of PE changes by one multiplier whatever the duration of
    /// the load (Plastics Pipe Institute), so the compliance is scaled and the shares stay. How much less a cold wall creeps
    /// than that is not in print for these times; it lies within <see cref="RelativeUncertainty"/>.
    /// </summary>
    /// <param name="temperatureC">Wall temperature [°C], 0 to 40.</param>
    public WallCreep At(double temperatureC)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(temperatureC);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(temperatureC, 40);
        double stiffer = CreepTemperature.StiffnessRatio(Material, temperatureC) / CreepTemperature.StiffnessRatio(Material, TemperatureC);
        return this with { TemperatureC = temperatureC, PromptPerPa = PromptPerPa / stiffer };
    }

    /// <summary>
    /// Part of the pipe's whole give that is the wall's, the rest being the water's own: 1 − (a/c)². A retarded share times
    /// this is the retarded share of the whole; bore, wall thickness and restraint cancel out.
    /// </summary>
    /// <param name="waveSpeedMPerS">Wave speed a of the pipe without air [m/s].</param>
    /// <param name="soundSpeedMPerS">Sound speed c in open water [m/s].</param>
    public static double WallPart(double waveSpeedMPerS, double soundSpeedMPerS) =>
        Math.Max(0, 1 - Math.Pow(waveSpeedMPerS / soundSpeedMPerS, 2));

    private static Dictionary<PipeMaterial, WallCreep> Read() => DataTable
        .Read("creep.csv", row => (
            Material: Enum.Parse<PipeMaterial>(row["material"].Span),
            ReferenceC: row["reference_C"].Parse<double>(),
            Prompt: row["prompt_per_GPa"].Parse<double>(),
            TauS: row["tau_s"].Parse<double>(),
            Retarded: row["retarded_per_GPa"].Parse<double>(),
            Uncertainty: row["relative_uncertainty"].Parse<double>()))
        .GroupBy(r => r.Material)
        .ToDictionary(g => g.Key, g => new WallCreep
        {
            Material = g.Key,
            TemperatureC = g.First().ReferenceC,
            PromptPerPa = g.First().Prompt * 1e-9,
            Elements = [.. g.OrderBy(r => r.TauS).Select(r => new CreepElement(r.TauS, r.Retarded / r.Prompt))],
            RelativeUncertainty = g.First().Uncertainty,
        });
}
