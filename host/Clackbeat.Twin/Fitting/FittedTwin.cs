using Clackbeat.Signal.Analysis;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;
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
    private const double GoodMisfit = 50;
    private const double FoundWeight = 0.7;

    /// <summary>Misfit over what is expected of it, 1 or more: the ratio of R. T. Birge (1932). It is in the covariance already.</summary>
    public double Birge { get; init; } = 1;

    /// <summary>
    /// The twin beats as the record does. That of a flap never counts as such: on rams that were kept aside its flows were wrong by a factor
    /// (docs/twin.md), whatever the residuals.
    /// </summary>
    public bool Fits => Misfit <= GoodMisfit && !IsOfFlap;

    /// <summary>The site file gives the waste valve as a flap.</summary>
    public bool IsOfFlap => Frame.Site.WasteValve.Kind == WasteValveKind.Flap;

    /// <summary>The waste valve is a plug that hangs in the flow on a soft spring, short of its stop.</summary>
    public bool IsOfSoftSpring => !IsOfFlap && Frame.Designed.WasteValve.Floats;

    /// <summary>A beat of the twin laid on the measured one, time 0 where the knock is half way up.</summary>
    /// <param name="cycle">The beat.</param>
    public HeadCurve Laid(Cycle cycle)
    {
        ArgumentNullException.ThrowIfNull(cycle);
        return Alignment.Aligned(cycle.Head, cycle.PlateauM ?? Measured.PlateauM);
    }

    /// <summary>How much of what was unknown of a parameter the record told: 0 nothing, 1 everything.</summary>
    /// <param name="parameter">The parameter.</param>
    public double Seen(TwinParameter parameter) => Math.Clamp(
        1 - (Math.Sqrt(Math.Max(0, Covariance[(int)parameter, (int)parameter])) / Frame.Spread[(int)parameter]), 0, 1);

    /// <summary>Fits the twin of a record; null when the record tells too little or no such ram beats.</summary>
    /// <param name="site">The site.</param>
    /// <param name="analysis">The analysis of the record.</param>
    /// <param name="cancellation">Ends the work early.</param>
    public static FittedTwin? Of(RamSite site, RamAnalysis analysis, CancellationToken cancellation = default) => Of(site, analysis, null, cancellation);

    /// <summary>The same, with its progress told.</summary>
    /// <param name="site">The site.</param>
    /// <param name="analysis">The analysis of the record.</param>
    /// <param name="progress">Told the share of the longest fit that is done, 0 to 1; most end sooner.</param>
    /// <param name="cancellation">Ends the work early.</param>
    public static FittedTwin? Of(RamSite site, RamAnalysis analysis, IProgress<double>? progress, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(analysis);
        if (MeasuredCycle.Of(site, analysis) is not { } measured)
        {
            return null;
        }

        double theory = SiteHydraulics.Of(site).WaveSpeedMPerS;
        double level = analysis.FoundSupplyHeadM?.Value ?? site.Supply.HeadM;
        double wave = site.DrivePipe.IsMixed ? theory : analysis.DrivePipe.WaveSpeedMPerS?.Value ?? theory;
        RamSite told = site with { Supply = site.Supply with { HeadM = Math.Sqrt(level * site.Supply.HeadM) } };
        if (!site.DrivePipe.IsMixed && analysis.DrivePipe.WaveSpeedMPerS is not null)
        {
            // The record's weighs more: it is a measurement.
            told = told with { DrivePipe = told.DrivePipe with { WaveSpeedMPerS = Math.Pow(wave, FoundWeight) * Math.Pow(theory, 1 - FoundWeight) } };
        }

        double ownLevel = 0.5 * (site.Supply.HeadUncertaintyM ?? 0) / site.Supply.HeadM;
        TwinFrame frame = TwinFrame.Of(
            told, analysis.Column?.ValveConstant, measured.ClosingVelocityMPerS?.Value, analysis.Column?.LossFactor ?? 1, measured.PlateauM, theory) with
        {
            Spread = TwinParameters.Spreads(
                TwinFrame.LeastWaveSpread + (0.5 * Math.Abs(Math.Log(wave / theory))),
                TwinFrame.LeastLevelSpread + ownLevel + (0.5 * Math.Abs(Math.Log(level / site.Supply.HeadM)))),
        };
        return new TwinFit(frame, measured, progress, cancellation).Solve();
    }
}
