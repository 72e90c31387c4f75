using System.Globalization;

namespace Clackbeat.Hydraulics.Ram;

/// <summary>Rules of thumb for a ram's proportions, as sanity checks. All are common practice, not laws.</summary>
internal static class RamProportions
{
    internal static IEnumerable<string> Remarks(RamGeometry ram, bool delivers)
    {
        var slenderness = ram.LengthM / ram.BoreM;
        if (slenderness is < 150 or > 1000)
        {
            yield return Say($"The drive pipe is {slenderness:0} bores long; 150 to 1000 is usual (Calvert's rule).");
        }

        var reach = ram.LengthM / ram.SupplyHeadM;
        if (reach is < 3 or > 12)
        {
            yield return Say($"The drive pipe is {reach:0.#} times as long as the supply head is high; 4 to 10 is usual.");
        }

        var lift = ram.DeliveryHeadM / ram.SupplyHeadM;
        if (lift > 20)
        {
            yield return Say($"The delivery head is {lift:0} times the supply head; few rams lift more than 20 times.");
        }

        if (ram.SupplyHeadM < 0.5)
        {
            yield return "The supply head is under 0.5 m, less than the usual least fall (USAID Water for the World RWS.4.D.5).";
        }

        if (!delivers)
        {
            yield return "At the closing velocities assumed, the surge does not reach the delivery head: nothing would be delivered.";
        }
    }

    private static string Say(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
