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

    /// <summary>What is to be said of it.</summary>
    public IReadOnlyList<RatingRemark> Remarks { get; init; } = [];

    /// <summary>Judges the suction side.</summary>
    /// <param name="load">Pipe and load.</param>
    public static SuctionCheck Of(PipeLoad load)
    {
        double vapourPa = WaterProperties.At(Math.Clamp(load.TemperatureC ?? WaterProperties.DefaultTemperatureC, 0, 40))
            .VapourPressurePa;
        double? abs = load.TroughPa + load.AtmospherePa;
        CavityState cavity = CavityOf(abs - vapourPa, load.TroughUncertaintyPa ?? 0);
        // A parted column stands at vapour pressure, whatever a sensor at the body shows.
        double suction = load.TroughPa is { } trough && cavity == CavityState.Whole
            ? Math.Max(0, (load.TroughUncertaintyPa ?? 0) - trough)
            : load.AtmospherePa - vapourPa;
        double? collapse = CollapseOf(load);
        PipeVerdict verdict = CollapseVerdictOf(collapse, suction);
        return new SuctionCheck
        {
            TroughAbsPa = abs,
            VapourMarginPa = abs - vapourPa,
            Cavity = cavity,
            CollapsePa = collapse,
            SuctionPa = suction,
            CollapseVerdict = verdict,
            Remarks = [AboutVapour(cavity, abs, vapourPa, load), AboutFolding(verdict, collapse, suction)],
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

    // No water stands under tension at a wall (below 0 absolute): a reading that says so beyond its uncertainty is off.
    private static RatingRemark AboutVapour(CavityState cavity, double? absolutePa, double vapourPa, PipeLoad load) =>
        absolutePa < -(load.TroughUncertaintyPa ?? 0)
            ? new RatingRemark(RatingRemarkCode.BelowVacuum)
            {
                PressurePa = load.TroughPa,
                UncertaintyPa = load.TroughUncertaintyPa,
                LimitPa = -load.AtmospherePa,
            }
            : new RatingRemark(cavity switch
            {
                CavityState.Whole => RatingRemarkCode.ColumnWhole,
                CavityState.Likely => RatingRemarkCode.ColumnMayPart,
                CavityState.Reached => RatingRemarkCode.ColumnParts,
                _ => RatingRemarkCode.TroughUnknown,
            })
            {
                PressurePa = absolutePa - vapourPa,
                UncertaintyPa = load.TroughUncertaintyPa,
            };

    private static RatingRemark AboutFolding(PipeVerdict collapse, double? collapsePa, double suctionPa) => new(collapse switch
    {
        PipeVerdict.Over => RatingRemarkCode.WallFolds,
        PipeVerdict.Near => RatingRemarkCode.WallMayFold,
        PipeVerdict.Within => RatingRemarkCode.WallHolds,
        _ => RatingRemarkCode.WallUnknown,
    })
    {
        PressurePa = suctionPa,
        LimitPa = collapsePa,
    };
}
