using Clackbeat.Signal.Analysis;
using Clackbeat.Site.Model;
using Clackbeat.Twin.Model;
using MathNet.Numerics.LinearAlgebra;

namespace Clackbeat.Twin.Fitting;

/// <summary>The twin of a ram: the parameters that make the model beat as the record does.</summary>
/// <param name="Frame">What the parameters move.</param>
/// <param name="Measured">What was fitted.</param>
/// <param name="Values">Values in the order of <see cref="TwinParameter"/>.</param>
/// <param name="Covariance">Their covariance, by the curvature.</param>
/// <param name="Cycle">The twin's mean beat.</param>
/// <param name="Misfit">Sum of the squared residuals, priors left out.</param>
public sealed record FittedTwin(
    TwinFrame Frame, MeasuredCycle Measured, IReadOnlyList<double> Values, Matrix<double> Covariance, Cycle Cycle, double Misfit)
{
    // Beyond this the twin of a right ram was not found on the rams that chose it (docs/twin.md).
    private const double GoodMisfit = 75;

    /// <summary>The twin beats as the record does.</summary>
    public bool Fits => Misfit <= GoodMisfit;

    /// <summary>How much of what was unknown of a parameter the record told: 0 nothing, 1 everything.</summary>
    /// <param name="parameter">The parameter.</param>
    public double Seen(TwinParameter parameter) => Math.Clamp(
        1 - (Math.Sqrt(Math.Max(0, Covariance[(int)parameter, (int)parameter])) / TwinParameters.PriorSpread[(int)parameter]), 0, 1);

    /// <summary>Fits the twin of a record; null when the record tells too little or no such ram beats.</summary>
    /// <param name="site">The site.</param>
    /// <param name="analysis">The analysis of the record.</param>
    /// <param name="cancellation">Ends the work early.</param>
    public static FittedTwin? Of(RamSite site, RamAnalysis analysis, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(analysis);
        if (MeasuredCycle.Of(site, analysis) is not { } measured)
        {
            return null;
        }

        RamSite told = site with { Supply = site.Supply with { HeadM = analysis.FoundSupplyHeadM?.Value ?? site.Supply.HeadM } };
        if (analysis.DrivePipe.WaveSpeedMPerS is { } wave && !site.DrivePipe.IsMixed)
        {
            told = told with { DrivePipe = told.DrivePipe with { WaveSpeedMPerS = wave.Value } };
        }

        var frame = TwinFrame.Of(
            told, analysis.Column?.ValveConstant, measured.ClosingVelocityMPerS?.Value, analysis.Column?.LossFactor ?? 1, measured.PlateauM);
        return new TwinFit(frame, measured, cancellation).Solve();
    }
}
