namespace Clackbeat.Hydraulics.Ram;

/// <summary>
/// The two efficiencies in use. Always name the definition: for one and the same ram they differ by several per cent.
/// A third form in some papers, q h / (w H), is given by neither name here.
/// </summary>
public static class RamEfficiency
{
    /// <summary>D'Aubuisson: useful over spent energy, both above the waste outlet: q h / ((q + w) H).</summary>
    /// <param name="deliveredM3PerS">Flow q through the delivery valve [m³/s].</param>
    /// <param name="wasteM3PerS">Flow w through the waste valve [m³/s].</param>
    /// <param name="supplyHeadM">Supply head H [m].</param>
    /// <param name="deliveryHeadM">Static delivery head h [m].</param>
    public static double DAubuisson(
        double deliveredM3PerS, double wasteM3PerS, double supplyHeadM, double deliveryHeadM) =>
        deliveredM3PerS * deliveryHeadM / ((deliveredM3PerS + wasteM3PerS) * supplyHeadM);

    /// <summary>Rankine: what lifting above the source gains over what the waste water gives: q (h − H) / (w H).</summary>
    /// <param name="deliveredM3PerS">Flow q through the delivery valve [m³/s].</param>
    /// <param name="wasteM3PerS">Flow w through the waste valve [m³/s].</param>
    /// <param name="supplyHeadM">Supply head H [m].</param>
    /// <param name="deliveryHeadM">Static delivery head h [m].</param>
    public static double Rankine(
        double deliveredM3PerS, double wasteM3PerS, double supplyHeadM, double deliveryHeadM) =>
        deliveredM3PerS * (deliveryHeadM - supplyHeadM) / (wasteM3PerS * supplyHeadM);
}
