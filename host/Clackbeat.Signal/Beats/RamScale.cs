namespace Clackbeat.Signal.Beats;

/// <summary>
/// The few magnitudes of one ram that tell a beat from noise: they come from the site file, not from tuning, and need
/// only be right within a factor of two.
/// </summary>
/// <param name="SupplyPa">Body pressure at rest under the supply head, ρgH [Pa gauge].</param>
/// <param name="DeliveryPa">Body pressure that opens the delivery valve, ρgh [Pa gauge].</param>
/// <param name="PipePeriodS">Pipe period 2L/a [s].</param>
public sealed record RamScale(double SupplyPa, double DeliveryPa, double PipePeriodS)
{
    /// <summary>
    /// Shortest open phase after which a closure can lift the delivery valve [s]. The column must first gain the
    /// Joukowsky velocity V = g h / a of the delivery head, and it gains at most g H / L each second; so
    /// t = (L / a)(h / H).
    /// </summary>
    public double ShortestOpenS => 0.5 * PipePeriodS * DeliveryPa / SupplyPa;
}
