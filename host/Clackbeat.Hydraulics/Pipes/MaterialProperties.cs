namespace Clackbeat.Hydraulics.Pipes;

/// <summary>What a pipe's material brings to wave speed and friction. From Data/materials.csv, sources in each row.</summary>
public sealed record MaterialProperties
{
    private static readonly Dictionary<PipeMaterial, MaterialProperties> Table =
        DataTable.Read("materials.csv", row => new MaterialProperties
        {
            Material = Enum.Parse<PipeMaterial>(row["material"].Span),
            Name = row["name"].ToString(),
            YoungPa = row["young_GPa"].Parse<double>() * 1e9,
            YoungLowPa = row["young_low_GPa"].Parse<double>() * 1e9,
            YoungHighPa = row["young_high_GPa"].Parse<double>() * 1e9,
            PoissonRatio = row["poisson"].Parse<double>(),
            RoughnessM = row["roughness_mm"].Parse<double>() * 1e-3,
            Source = row["source"].ToString(),
        }).ToDictionary(m => m.Material);

    /// <summary>The material.</summary>
    public required PipeMaterial Material { get; init; }

    /// <summary>Its name as the site file writes it.</summary>
    public required string Name { get; init; }

    /// <summary>Young's modulus under a load of milliseconds at about 20 °C [Pa].</summary>
    public required double YoungPa { get; init; }

    /// <summary>Lower end of what is published for it [Pa].</summary>
    public required double YoungLowPa { get; init; }

    /// <summary>Upper end of what is published for it [Pa].</summary>
    public required double YoungHighPa { get; init; }

    /// <summary>Poisson's ratio.</summary>
    public required double PoissonRatio { get; init; }

    /// <summary>Absolute wall roughness of a new pipe [m]; rust and scale raise it several times.</summary>
    public required double RoughnessM { get; init; }

    /// <summary>Where the figures come from.</summary>
    public required string Source { get; init; }

    /// <summary>The properties of a material; null for <see cref="PipeMaterial.Other"/>, of which nothing is known.</summary>
    /// <param name="material">The material.</param>
    public static MaterialProperties? TryGet(PipeMaterial material) => Table.GetValueOrDefault(material);
}
