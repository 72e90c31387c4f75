using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Water;

namespace Clackbeat.Hydraulics.Rating;

/// <summary>How near the water comes to boiling in the recoil.</summary>
public enum CavityState
{
    /// <summary>The trough is unknown.</summary>
    Unknown,

    /// <summary>The water stays whole at the sensor.</summary>
    Whole,

    /// <summary>Vapour pressure is reached within the uncertainty: the column may part.</summary>
    Likely,

    /// <summary>Vapour pressure is reached: the column parts, and its rejoining is a surge of its own.</summary>
    Reached,
}

/// <summary>The suction side: vapour and collapse.</summary>
public sealed record SuctionCheck
{
    /// <summary>
    /// Least ratio of collapse pressure to suction that is called safe: 2, as AWWA M11 and the Plastics Pipe Institute's
    /// handbook use for pipe without support from soil (from memory). It covers a pipe out of round.
    /// </summary>
    public const double CollapseSafety = 2;

    /// <summary>The rule on the wall, with its source.</summary>
    internal const string CollapseRule =
        "Folding under suction: 2E/(1 − µ²)·(t/D)³ (Timoshenko; Moser and Folkman Eq. 3.14) at least twice the suction";

    /// <summary>Lowest pressure [Pa absolute]; null when unknown.</summary>
    public double? TroughAbsPa { get; init; }

    /// <summary>How far that is above vapour pressure [Pa]; negative when below.</summary>
    public double? VapourMarginPa { get; init; }

    /// <summary>State of the water column.</summary>
    public CavityState Cavity { get; init; }

    /// <summary>External pressure at which the wall would fold [Pa]; null when wall or modulus is unknown.</summary>
    public double? CollapsePa { get; init; }

    /// <summary>Greatest suction the wall has to bear [Pa]: the measured one, or a full vacuum when none was measured.</summary>
    public double SuctionPa { get; init; }

    /// <summary>Verdict on the wall.</summary>
    public PipeVerdict CollapseVerdict { get; init; }

    /// <summary>The judgement in sentences.</summary>
    public IReadOnlyList<Sentence> Remarks { get; init; } = [];

    /// <summary>Judges the suction side.</summary>
    /// <param name="load">Pipe and load.</param>
    public static SuctionCheck Of(PipeLoad load)
    {
        var vapourPa = WaterProperties.At(Math.Clamp(load.TemperatureC ?? WaterProperties.DefaultTemperatureC, 0, 40))
            .VapourPressurePa;
        double? abs = load.TroughPa + load.AtmospherePa;
        var cavity = CavityOf(abs - vapourPa, load.TroughUncertaintyPa ?? 0);
        // A parted column stands at vapour pressure, whatever a sensor at the body shows.
        var suction = load.TroughPa is { } trough && cavity == CavityState.Whole
            ? Math.Max(0, (load.TroughUncertaintyPa ?? 0) - trough)
            : load.AtmospherePa - vapourPa;
        var collapse = CollapseOf(load);
        var verdict = CollapseVerdictOf(collapse, suction);
        return new SuctionCheck
        {
            TroughAbsPa = abs,
            VapourMarginPa = abs - vapourPa,
            Cavity = cavity,
            CollapsePa = collapse,
            SuctionPa = suction,
            CollapseVerdict = verdict,
            Remarks = [.. AboutVapour(cavity, abs - vapourPa, load.TroughUncertaintyPa), .. AboutFolding(verdict, collapse, suction)],
        };
    }

    private static CavityState CavityOf(double? marginPa, double uncertaintyPa) => marginPa switch
    {
        null => CavityState.Unknown,
        <= 0 => CavityState.Reached,
        { } margin when margin <= uncertaintyPa => CavityState.Likely,
        _ => CavityState.Whole,
    };

    private static double? CollapseOf(PipeLoad load) =>
        load.KnownWallM is { } wall && load.OutsideM is { } outside && MaterialProperties.TryGet(load.Material) is { } material
            ? WallFormulas.CollapsePa(material.YoungLowPa, material.PoissonRatio, wall, outside)
            : null;

    private static PipeVerdict CollapseVerdictOf(double? collapsePa, double suctionPa) => collapsePa switch
    {
        null => PipeVerdict.Unknown,
        { } collapse when collapse < suctionPa => PipeVerdict.Over,
        { } collapse when collapse < CollapseSafety * suctionPa => PipeVerdict.Near,
        _ => PipeVerdict.Within,
    };

    private static IEnumerable<Sentence> AboutVapour(CavityState cavity, double? marginPa, double? uncertaintyPa)
    {
        if (cavity == CavityState.Whole)
        {
            yield return Sentence.Of($"The deepest suction stays {new SaidPressure(marginPa!.Value, uncertaintyPa)} above the "
                + $"pressure at which the water would boil: the water column stays whole at the sensor.");
        }
        else if (cavity is CavityState.Reached or CavityState.Likely)
        {
            yield return (cavity == CavityState.Reached
                ? "The recoil reaches the pressure at which water boils in the cold"
                : "The recoil comes so close to the pressure at which water boils in the cold that the sensor can't tell them apart")
                + ": the water column parts, and where it rejoins the surge can exceed static + aV/g. Let the snifter take in a "
                + "little air, or lower the closing velocity.";
        }
        else
        {
            yield return "How deep the suction goes is not known, so whether the water column parts can't be told, and the wall is held "
                + "against a full vacuum.";
        }
    }

    private static IEnumerable<Sentence> AboutFolding(PipeVerdict collapse, double? collapsePa, double suctionPa)
    {
        var suction = new SaidPressure(suctionPa);
        switch (collapse)
        {
            case PipeVerdict.Over or PipeVerdict.Near:
                yield return Sentence.Of($"Suction of {suction} can fold this wall, which a perfectly round pipe bears to "
                    + $"{new SaidPressure(collapsePa!.Value)}: take a thicker wall.");
                break;
            case PipeVerdict.Within:
                yield return Sentence.Of($"The wall bears {new SaidPressure(collapsePa!.Value)} from outside, more than twice the suction "
                    + $"of {suction}: it won't fold.");
                break;
            default:
                yield return "Whether suction can fold the wall isn't known: the file gives no wall thickness or the material's stiffness is unknown.";
                break;
        }
    }
}
