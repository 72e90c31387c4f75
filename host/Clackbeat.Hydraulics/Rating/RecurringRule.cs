using Clackbeat.Hydraulics.Pipes;

namespace Clackbeat.Hydraulics.Rating;

/// <summary>Rules on the peak of a recurring surge.</summary>
public enum PressureRule
{
    /// <summary>Peak at most rating × temperature factor, without any allowance.</summary>
    PlainRating,

    /// <summary>AWWA C900: peak at most pressure class × temperature factor, fatigue beside it.</summary>
    AwwaC900,

    /// <summary>AWWA C901 and C906: 1.5 × pressure class × temperature factor.</summary>
    AwwaC901,

    /// <summary>EN 545: peak at most the allowable operating pressure PFA.</summary>
    En545,

    /// <summary>Copper Tube Handbook: rated internal working pressure of annealed tube.</summary>
    CopperTubeHandbook,

    /// <summary>ASME B31.3 §302.2.4: a ram's peak is the design pressure.</summary>
    AsmeB313,
}

/// <summary>
/// How much of its rating a pipe may meet again and again. A ram's peak comes 20 to 130 million times a year: no allowance for
/// occasional surges may be used for it (ASME B31.3 §302.2.4 caps such variations at 1000 in the life of a system, which a ram
/// at 60 beats a minute uses up in 17 minutes).
/// </summary>
/// <param name="Factor">Factor on the derated rating.</param>
/// <param name="Rule">The rule.</param>
/// <param name="Note">What the rule's reader should know; null when nothing.</param>
public sealed record RecurringRule(double Factor, PressureRule Rule, RatingRemarkCode? Note)
{
    /// <summary>The rule for a material.</summary>
    /// <param name="material">The material.</param>
    public static RecurringRule For(PipeMaterial material) => material switch
    {
        PipeMaterial.PvcU => new(1, PressureRule.AwwaC900, RatingRemarkCode.OccasionalSurgeOfPvc),
        PipeMaterial.Pe100 or PipeMaterial.Pe80 or PipeMaterial.Pe4710 =>
            new(1.5, PressureRule.AwwaC901, RatingRemarkCode.RecurringSurgeOfPolyethylene),
        PipeMaterial.DuctileIron => new(1, PressureRule.En545, null),
        PipeMaterial.Copper => new(1, PressureRule.CopperTubeHandbook, RatingRemarkCode.SolderedJoints),
        PipeMaterial.Steel or PipeMaterial.GalvanisedSteel or PipeMaterial.StainlessSteel => new(1, PressureRule.AsmeB313, null),
        _ => new(1, PressureRule.PlainRating, null),
    };
}
