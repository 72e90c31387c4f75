namespace Clackbeat.Signal.Beats;

/// <summary>
/// Learns from a stretch of samples whether and between which levels a ram beats. The split is Otsu's (the threshold
/// that maximises the variance between two classes: N. Otsu, IEEE Trans. SMC 9(1), 1979, doi:10.1109/TSMC.1979.4310076);
/// what makes it a ram and not noise is physical: delivery needs more than the supply head, the open phase is long
/// enough for the column to gain the speed that lifts the delivery valve, and it is calm.
/// </summary>
internal sealed class LevelLearner(RamScale scale)
{
    private const int Bins = 4096;

    // No open phase of a beating ram lasts longer: at 8 beats a minute it would be 7 s. Longer lulls are stops.
    private const double LongestOpenS = 8;

    private readonly Histogram _histogram = new(Bins);
    private readonly List<double> _lulls = [];

    /// <summary>Levels of a beating ram, or null when the samples don't show one.</summary>
    /// <param name="timeS">Times [s], rising.</param>
    /// <param name="pressurePa">Gauge pressures [Pa], same length.</param>
    public BeatLevels? Learn(ReadOnlySpan<double> timeS, ReadOnlySpan<double> pressurePa)
    {
        if (pressurePa.Length < 16 || !_histogram.Count(pressurePa))
        {
            return null;
        }

        // Suction is a third level that Otsu's two classes know nothing of; it never fills a quarter of the time.
        int floor = _histogram.BinOfQuantile(0.25);
        int split = _histogram.OtsuSplit(floor);
        double openPa = _histogram.Median(0, split);
        double deliveryPa = _histogram.Median(split, Bins);
        double spreadPa = 1.4826 * _histogram.MedianDeviation(0, split, openPa);

        // With the valve shut and nothing delivered the body never stands above the supply head.
        bool reachesDelivery = deliveryPa - openPa > scale.SupplyPa && deliveryPa > scale.SupplyPa;

        // An open valve leaves the body calm; the ring of a shut pipe fills the range between its extremes evenly.
        bool calm = spreadPa < 0.1 * (deliveryPa - openPa);
        if (!reachesDelivery || !calm)
        {
            return null;
        }

        double typicalOpenS = TypicalLull(timeS, pressurePa, 0.5 * (openPa + deliveryPa));
        double physicalS = Math.Max(scale.PipePeriodS, scale.ShortestOpenS);
        if (typicalOpenS < 0.5 * physicalS)
        {
            return null;
        }

        // Sub-peaks of one beat leave lulls some tenths of an open phase long at most; a site file that is wrong
        // must not make real open phases vanish, so the record itself bounds the physical figure.
        double shortestS = Math.Max(0.15 * typicalOpenS, Math.Min(0.5 * typicalOpenS, physicalS));
        return new BeatLevels(openPa, deliveryPa, spreadPa, typicalOpenS, shortestS);
    }

    /// <summary>
    /// The length of stay below the threshold that half of all such time belongs to [s]: sub-peaks make many short
    /// stays, but the open phases own the time. Without a closed stay, the time since the record began counts.
    /// </summary>
    private double TypicalLull(ReadOnlySpan<double> timeS, ReadOnlySpan<double> pressurePa, double thresholdPa)
    {
        _lulls.Clear();
        double totalS = 0;
        int last = pressurePa.Length - 1;
        int lastAbove = -1;
        for (int i = 0; i <= last; i++)
        {
            bool isBelow = pressurePa[i] < thresholdPa;
            if (lastAbove < 0 && isBelow && i < last)
            {
                lastAbove = Math.Max(i - 1, 0);
            }
            else if (lastAbove >= 0 && (!isBelow || i == last))
            {
                double lullS = timeS[i] - timeS[lastAbove];
                lastAbove = -1;

                // A lull that still runs as the samples end may be a stop; it counts only where no other tells the open phase.
                if (lullS <= LongestOpenS && (!isBelow || _lulls.Count == 0))
                {
                    _lulls.Add(lullS);
                    totalS += lullS;
                }
            }
        }

        _lulls.Sort();
        double sumS = 0;
        foreach (double lullS in _lulls)
        {
            sumS += lullS;
            if (sumS >= 0.5 * totalS)
            {
                return lullS;
            }
        }

        return 0;
    }
}
