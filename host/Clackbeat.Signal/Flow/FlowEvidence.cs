namespace Clackbeat.Signal.Flow;

/// <summary>What the uncertainty of the flows is made of. All shares are over the value they belong to, uncertainties are standard ones.</summary>
/// <param name="FittedDelivered">Uncertainty of the delivered flow by the fit and the site file.</param>
/// <param name="FittedWaste">The same of the waste flow.</param>
/// <param name="FittedShare">The same of delivered over drawn.</param>
/// <param name="Share">Delivered over drawn.</param>
/// <param name="WaveShare">Velocity step of a wave over the closing velocity.</param>
/// <param name="AnchorsApart">How far the anchors stand apart beyond what both allow, as a share of the delivered flow.</param>
/// <param name="Bore">Uncertainty of the bore.</param>
/// <param name="Coarse">The record has few samples in a pipe period.</param>
/// <param name="Floats">The waste valve floats, or follows no law that could be used.</param>
internal readonly record struct FlowEvidence(
    double FittedDelivered, double FittedWaste, double FittedShare, double Share, double WaveShare, double AnchorsApart, double Bore, bool Coarse,
    bool Floats)
{
    // What the budget can't know: how far real rams stray from the model. Taken from the sweep (docs/flow-method.md):
    // a floor, and a part that grows with the wave's step against the closing velocity. Standard uncertainties.
    private const double ModelFloor = 0.015;
    private const double ModelWave = 0.06;
    private const double ShareFloor = 0.010;
    private const double CoarseFactor = 2.5;

    // The step of a wave is known to a tenth: walls creep and friction is unsteady, and neither is in the model. What is left of the closing
    // velocity after the first step delivers, so an error of the step goes into the delivered flow by x/(1 − x), x the step over the closing
    // velocity. Chosen on 79 records of drawn rams (docs/flow-method.md).
    private const double StepUncertainty = 0.10;
    private const double MostOfStep = 0.8;

    // A valve that floats follows its law less well than one at its stop. On 16 records of two drawn rams of the choosing set with a plug
    // on a spring the flows strayed by a fifth in the median; within twice this, and what the fit itself leaves open, lie 12 of them.
    private const double FloatingModel = 0.2;

    /// <summary>Uncertainty of the delivered flow.</summary>
    public double Delivered => StandardUncertainty.Combine(Of(FittedDelivered), OfStep);

    /// <summary>Uncertainty of the waste flow.</summary>
    public double Waste => Of(FittedWaste);

    /// <summary>Uncertainty of the drawn flow.</summary>
    public double Drawn => StandardUncertainty.Combine(Of((Share * FittedDelivered) + ((1 - Share) * FittedWaste)), Share * OfStep);

    /// <summary>Uncertainty of delivered over drawn.</summary>
    public double OfShare => StandardUncertainty.Combine(
        (Coarse ? CoarseFactor : 1) * StandardUncertainty.Combine(FittedShare, ShareFloor + (0.5 * ModelWave * WaveShare)), (1 - Share) * OfStep);

    /// <summary>What an unsure step of a wave does to the delivered flow.</summary>
    private double OfStep
    {
        get
        {
            double share = Math.Min(WaveShare, MostOfStep);
            return StepUncertainty * share / (1 - share);
        }
    }

    private double Model => StandardUncertainty.Combine(
        ((Coarse ? CoarseFactor : 1) * (ModelFloor + (ModelWave * WaveShare))) + AnchorsApart, Floats ? FloatingModel : 0);

    // A flow goes with the square of the bore.
    private double Of(double fitted) => StandardUncertainty.Combine(fitted, Model, 2 * Bore);
}
