using Clackbeat.Hydraulics.Pipes;

namespace Clackbeat.Hydraulics.Rating;

/// <summary>
/// How much of its rating a pipe may meet again and again. A ram's peak comes 20 to 130 million times a year: no allowance for
/// occasional surges may be used for it (ASME B31.3 §302.2.4 caps such variations at 1000 in the life of a system, which a ram
/// at 60 beats a minute uses up in 17 minutes).
/// </summary>
/// <param name="Factor">Factor on the derated rating.</param>
/// <param name="Words">Rule and source in a sentence.</param>
/// <param name="Note">What the rule's reader should know; empty when nothing.</param>
public sealed record RecurringRule(double Factor, string Words, string Note)
{
    private const string PeNote =
        "Polyethylene's allowance of half its rating for recurring surges was tested to 4.2 million cycles (Crabtree and Oliphant) "
        + "and supposes about a million in a life; a ram makes a million beats in some weeks. Below the plain rating this "
        + "question does not arise.";

    /// <summary>The rule for a material.</summary>
    /// <param name="material">The material.</param>
    public static RecurringRule For(PipeMaterial material) => material switch
    {
        PipeMaterial.PvcU => new(
            1,
            "AWWA C900: peak of a recurring surge ≤ pressure class × temperature factor, with a fatigue check beside it",
            "Up to 1.6 times the class is allowed by AWWA C900 for occasional surges only; a ram's are not."),
        PipeMaterial.Pe100 or PipeMaterial.Pe80 or PipeMaterial.Pe4710 => new(
            1.5,
            "AWWA C901 and C906 for polyethylene: peak of a recurring surge ≤ 1.5 × pressure class × temperature factor",
            PeNote),
        PipeMaterial.DuctileIron => new(
            1,
            "EN 545: peak ≤ allowable operating pressure PFA; the higher PMA is for occasional surges",
            ""),
        PipeMaterial.Copper => new(
            1,
            "Copper Tube Handbook: peak ≤ rated internal working pressure of annealed tube",
            "Soft-soldered joints may bear less than the tube: look up the solder's own rating."),
        PipeMaterial.Steel or PipeMaterial.GalvanisedSteel or PipeMaterial.StainlessSteel => new(
            1,
            "ASME B31.3 §302.2.4: a ram's peak is the design pressure, without the allowances for occasional variations",
            ""),
        _ => new(1, "peak ≤ rating × temperature factor, without any allowance for surges", ""),
    };
}
