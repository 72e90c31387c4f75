namespace Clackbeat.Season.Store;

/// <summary>Hands whole bursts out page after page, so that a store of years is never in memory at once and no lock is held between.</summary>
internal static class StorePages
{
    // A page of a minute's bursts is about half a megabyte.
    private const int APage = 250;

    /// <summary>Reads one page.</summary>
    public delegate List<SeasonBurst> Reader(BurstPlace after, int most, out BurstPlace last);

    /// <summary>All bursts.</summary>
    /// <param name="read">Reads a page.</param>
    public static IEnumerable<SeasonBurst> Bursts(Reader read)
    {
        BurstPlace place = BurstPlace.Beginning;
        while (true)
        {
            List<SeasonBurst> page = read(place, APage, out place);
            foreach (SeasonBurst burst in page)
            {
                yield return burst;
            }

            if (page.Count < APage)
            {
                yield break;
            }
        }
    }
}
