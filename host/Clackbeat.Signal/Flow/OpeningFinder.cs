namespace Clackbeat.Signal.Flow;

/// <summary>
/// When the waste valve stands fully open. The velocity passes through zero soon after it began to fall open, and the head
/// there is the sensor's zero itself, whatever the valve's constant; so the earlier the law of the open valve may be
/// trusted, the better the zero is known. But while the plug still falls, or water is still being drawn back through it,
/// the head strays from that law. A fit to the sure part of the open phase is carried back to earlier times, and the mean
/// of all beats tells from when on the head follows it.
/// </summary>
internal static class OpeningFinder
{
    private const double Earliest = 0.03;
    private const double Step = 0.01;

    // Of the open phase; waves average out over whole pipe periods, so a longer period makes it longer.
    private const double ShortestSpan = 0.03;

    // A stray of so many standard uncertainties is not the fully open valve any more: starting a little early costs less
    // than starting late by chance, which a sharper test does now and then among the nine it makes.
    private const double Stray = 4;

    /// <summary>Part of the open phase after which the heads follow the law of a fit; at most where the fit itself began.</summary>
    public static double Find(ColumnFit fit, IReadOnlyList<FlowWindow> windows)
    {
        int count = Math.Max(0, (int)Math.Round((fit.OpenedShare - Earliest) / Step));
        var strays = new Mean[count];
        double span = Math.Max(ShortestSpan, fit.Model.PeriodS / windows.Average(w => w.Beat.OpenLengthS));
        double[] velocity = new double[windows.Max(w => w.TimeS.Length)];
        for (int j = 0; j < windows.Count; j++)
        {
            Span<double> v = velocity.AsSpan(0, windows[j].TimeS.Length);
            ColumnInversion.Run(windows[j].TimeS, windows[j].ColumnHeadM, fit.Model, fit.StartVelocity[j], v);
            for (int i = 0; i < count; i++)
            {
                Add(windows[j], v, fit, Earliest + (i * Step), span, ref strays[i]);
            }
        }

        int first = count;
        while (first > 0 && Follows(strays[first - 1], fit))
        {
            first--;
        }

        return Math.Min(fit.OpenedShare, Earliest + (first * Step));
    }

    private static void Add(
        FlowWindow window, ReadOnlySpan<double> velocity, ColumnFit fit, double share, double span, ref Mean mean)
    {
        double fromS = window.Beat.OpenStartS + (share * window.Beat.OpenLengthS);
        int to = Math.Min(window.At(fromS + (span * window.Beat.OpenLengthS)), velocity.Length);
        for (int i = window.At(fromS); i < to; i++)
        {
            double law = fit.LawHead(velocity[i]);
            mean = new Mean(mean.StrayM + window.HeadM[i] - law, mean.ValveM + law - fit.Model.BiasM, mean.Samples + 1);
        }
    }

    private static bool Follows(Mean sum, ColumnFit fit)
    {
        if (sum.Samples == 0)
        {
            return false;
        }

        double law = ColumnFit.LawUncertaintyM(sum.ValveM / sum.Samples);
        double uncertainty = Math.Sqrt((law * law) + (fit.NoiseM * fit.NoiseM / sum.Samples));
        return Math.Abs(sum.StrayM / sum.Samples) <= Stray * uncertainty;
    }

    private readonly record struct Mean(double StrayM, double ValveM, long Samples);
}
