namespace Clackbeat.Signal.Beats;

/// <summary>The two pressure levels between which a beating ram's body alternates, learnt from the record.</summary>
/// <param name="OpenPa">Median pressure while the waste valve is open [Pa gauge].</param>
/// <param name="DeliveryPa">Median pressure during delivery [Pa gauge].</param>
/// <param name="OpenDeviationPa">Standard deviation of the open level, from its median absolute deviation [Pa].</param>
/// <param name="TypicalOpenS">Usual length of the open phase [s].</param>
/// <param name="ShortestOpenS">A stay below the threshold shorter than this is no open phase but part of one beat [s].</param>
public sealed record BeatLevels(
    double OpenPa, double DeliveryPa, double OpenDeviationPa, double TypicalOpenS, double ShortestOpenS)
{
    /// <summary>Halfway between the two levels [Pa gauge].</summary>
    public double ThresholdPa => 0.5 * (OpenPa + DeliveryPa);

    /// <summary>From the open level to the delivery level [Pa].</summary>
    public double JumpPa => DeliveryPa - OpenPa;

    /// <summary>Below this the pressure is not the calm of an open valve but its recoil [Pa gauge].</summary>
    public double CalmFromPa => OpenPa - (5 * OpenDeviationPa);
}
