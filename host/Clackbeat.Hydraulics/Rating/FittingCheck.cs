namespace Clackbeat.Hydraulics.Rating;

/// <summary>A part of the line against the peak. The drive pipe itself stands in the same list.</summary>
/// <param name="Name">What it is.</param>
/// <param name="AllowablePa">What it may meet again and again [Pa gauge]; null when unknown.</param>
/// <param name="Verdict">Verdict on it.</param>
public sealed record FittingCheck(string Name, double? AllowablePa, PipeVerdict Verdict)
{
    /// <summary>Stands for the drive pipe itself among the parts.</summary>
    public const string DrivePipe = "drive pipe";

    /// <summary>Pipe and fittings, the weakest first, the unknown last.</summary>
    internal static IReadOnlyList<FittingCheck> Of(PipeLoad load, double? pipeAllowablePa) =>
        [.. load.Fittings.Select(f => (f.Name, f.RatingPa))
            .Append((DrivePipe, pipeAllowablePa))
            .Select(part => new FittingCheck(
                part.Item1,
                part.Item2,
                PeakJudge.Verdict(load.PeakPa, load.PeakUncertaintyPa, load.PeakUnbounded, part.Item2)))
            .OrderBy(check => check.AllowablePa ?? double.PositiveInfinity)];
}
