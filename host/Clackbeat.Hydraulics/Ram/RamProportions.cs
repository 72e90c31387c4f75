namespace Clackbeat.Hydraulics.Ram;

/// <summary>In what a ram leaves the usual proportions.</summary>
public enum ProportionCode
{
    /// <summary>Drive pipe over its bore.</summary>
    BoresLong,

    /// <summary>Drive pipe over supply head.</summary>
    Reach,

    /// <summary>Delivery head over supply head.</summary>
    Lift,

    /// <summary>The supply head is less than the usual least fall.</summary>
    SmallFall,

    /// <summary>The surge does not reach the delivery head.</summary>
    DeliversNothing,
}

/// <summary>A proportion that is out of the usual.</summary>
/// <param name="Code">Which.</param>
/// <param name="Value">What it is at this ram: a ratio, or the supply head [m].</param>
/// <param name="Low">Least that is usual; not a number where only one end is known.</param>
/// <param name="High">Most that is usual; not a number where only one end is known.</param>
public readonly record struct ProportionNote(ProportionCode Code, double Value, double Low, double High);

/// <summary>Rules of thumb for a ram's proportions, as sanity checks. All are common practice, not laws.</summary>
internal static class RamProportions
{
    // Calvert's rule for the drive pipe's length in bores.
    private const double LeastBores = 150;
    private const double MostBores = 1000;

    // Two rules are in use, 4 to 7 and 5 to 10 times the fall (common practice, from memory): outside both is worth a word.
    private const double LeastReach = 4;
    private const double MostReach = 10;

    // Few rams lift higher (common practice, from memory).
    private const double MostLift = 20;

    // USAID Water for the World RWS.4.D.5.
    private const double LeastFallM = 0.5;

    internal static IEnumerable<ProportionNote> Notes(RamGeometry ram, bool delivers)
    {
        double bores = ram.LengthM / ram.BoreM;
        if (bores is < LeastBores or > MostBores)
        {
            yield return new ProportionNote(ProportionCode.BoresLong, bores, LeastBores, MostBores);
        }

        double reach = ram.LengthM / ram.SupplyHeadM;
        if (reach is < LeastReach or > MostReach)
        {
            yield return new ProportionNote(ProportionCode.Reach, reach, LeastReach, MostReach);
        }

        double lift = ram.DeliveryHeadM / ram.SupplyHeadM;
        if (lift > MostLift)
        {
            yield return new ProportionNote(ProportionCode.Lift, lift, double.NaN, MostLift);
        }

        if (ram.SupplyHeadM < LeastFallM)
        {
            yield return new ProportionNote(ProportionCode.SmallFall, ram.SupplyHeadM, LeastFallM, double.NaN);
        }

        if (!delivers)
        {
            yield return new ProportionNote(ProportionCode.DeliversNothing, 0, double.NaN, double.NaN);
        }
    }
}
