namespace Clackbeat.Signal.Flow;

/// <summary>A wave speed found in the record.</summary>
/// <param name="MPerS">Wave speed [m/s].</param>
/// <param name="Uncertainty">Its standard uncertainty over its value.</param>
/// <param name="Clear">False when the record shows no echo and the site's figure stands in.</param>
internal readonly record struct FoundWaveSpeed(double MPerS, double Uncertainty, bool Clear);

/// <summary>
/// Chooses the wave speed among those that explain the open phases. Delivery ends with a wave that comes back from the
/// intake, so it lasts a whole number of pipe periods: every wave speed that makes it so explains the record about as
/// well, and the truth among them is told by two things. The site's figure says where to look; and a wave speed that is
/// true, or a multiple of it, fits better than the next one above, which cuts the delivery into periods that were none.
/// Air slows a wave, hardly anything hastens it, so far below the site's figure the second witness may overrule the first.
/// </summary>
internal static class WaveSpeedFinder
{
    private const double Grid = 1.012;
    private const int HalfDip = 3;
    private const double LowestShare = 0.1;
    private const double HighestShare = 1.35;
    private const int MostWindows = 16;

    // A delivery of one period may look shorter or longer by the time the valves take.
    private const double LongestPeriods = 1.25;

    // Odds before looking: one ram in ten has air in its drive pipe (an assumption), at any wave speed below the site's.
    private const double AirOdds = 0.1;
    private const double AirBelow = 0.88;
    private const double MisfitScale = 0.02;
    private const double MostMisfitOfAir = 0.03;
    private const double MarginScale = 0.01;
    private const double MarginWeight = 6;

    private const double NextHalfWidth = 0.35;

    private const double EchoUncertainty = 0.02;
    private const double FarUncertainty = 0.04;
    private const double LeastContrast = 0.1;
    private const double MostMisfit = 0.15;

    /// <summary>Up to here from the site's figure, as a logarithm, the two are averaged.</summary>
    public const double Near = 0.12;

    /// <summary>Looks for the wave speed.</summary>
    /// <param name="windows">Beats.</param>
    /// <param name="site">The column with the site's wave speed and the sensor's bias roughly known.</param>
    /// <param name="siteUncertainty">Standard uncertainty of the site's wave speed over its value.</param>
    public static FoundWaveSpeed Find(IReadOnlyList<FlowWindow> windows, ColumnModel site, double siteUncertainty)
    {
        int every = (windows.Count + MostWindows - 1) / MostWindows;
        FlowWindow[] some = [.. windows.Where((_, i) => i % every == 0)];
        var scan = new WaveScan(some, site);
        double onePeriod = OnePeriodMPerS(some, site.LengthM);
        List<WaveTrial> trials = Trials(scan, site.WaveSpeedMPerS, onePeriod);
        double least = trials.Min(t => t.Misfit);
        double[] sorted = [.. trials.Select(t => t.Misfit).Order()];
        double range = sorted[(int)(0.9 * (sorted.Length - 1))] - least;
        List<WaveTrial> dips = Dips(scan, trials);
        least = Math.Min(least, dips.Count > 0 ? dips.Min(t => t.Misfit) : least);
        if (Echo.Against(windows, site) is { } echo)
        {
            return Slowed(echo, dips, least + (MostMisfit * range));
        }

        if (!(range > LeastContrast * least) || dips.Count == 0)
        {
            return new FoundWaveSpeed(site.WaveSpeedMPerS, siteUncertainty, false);
        }

        double uncertainty = Math.Sqrt((siteUncertainty * siteUncertainty) + (EchoUncertainty * EchoUncertainty));
        (double best, WaveTrial found) = (double.NegativeInfinity, dips[0]);
        for (int i = 0; i < dips.Count; i++)
        {
            double misfit = (dips[i].Misfit - least) / range;
            double margin = (Next(trials, dips[i].MPerS, onePeriod) - dips[i].Misfit) / range;
            double score = Score(Math.Log(dips[i].MPerS / site.WaveSpeedMPerS), uncertainty, misfit, margin);
            if (score > best)
            {
                (best, found) = (score, dips[i]);
            }
        }

        return (found.Misfit - least) / range > MostMisfit
            ? new FoundWaveSpeed(site.WaveSpeedMPerS, siteUncertainty, false)
            : Combine(found.MPerS, site.WaveSpeedMPerS, siteUncertainty);
    }

    /// <summary>Echoes that deny the site's figure say which dip to look at; where there is none beside them they stand alone.</summary>
    private static FoundWaveSpeed Slowed(Echo echo, List<WaveTrial> dips, double mostMisfit)
    {
        WaveTrial[] beside = [.. dips.Where(d => echo.Fits(d.MPerS) && d.Misfit < mostMisfit).OrderBy(d => d.Misfit)];
        return beside.Length > 0
            ? new FoundWaveSpeed(beside[0].MPerS, FarUncertainty, true)
            : new FoundWaveSpeed(echo.MPerS, Echo.Uncertainty, true);
    }

    /// <summary>Near the site's figure two witnesses agree and are averaged by their weights; far from it only the echo counts.</summary>
    private static FoundWaveSpeed Combine(double found, double site, double siteUncertainty)
    {
        double apart = Math.Log(found / site);
        if (Math.Abs(apart) > Near)
        {
            return new FoundWaveSpeed(found, FarUncertainty, true);
        }

        double pull = EchoUncertainty * EchoUncertainty / ((EchoUncertainty * EchoUncertainty) + (siteUncertainty * siteUncertainty));
        return new FoundWaveSpeed(
            found * Math.Exp(-pull * apart), Math.Max(EchoUncertainty * Math.Sqrt(1 - pull), 0.3 * Math.Abs(apart)), true);
    }

    /// <summary>Logarithm of the odds of a wave speed, up to a constant.</summary>
    internal static double Score(double apart, double uncertainty, double misfit, double margin)
    {
        double near = (1 - AirOdds) / (uncertainty * Math.Sqrt(2 * Math.PI)) * Math.Exp(-0.5 * apart * apart / (uncertainty * uncertainty));
        double score = Math.Log(near + 1e-30) - (misfit / MisfitScale);
        if (apart < Math.Log(AirBelow) && misfit < MostMisfitOfAir)
        {
            double air = Math.Log(AirOdds / -Math.Log(LowestShare)) - (misfit / MisfitScale)
                + (MarginWeight * Math.Clamp(margin / MarginScale, -1, 2));
            score = Math.Max(score, air);
        }

        return score;
    }

    /// <summary>The wave speed that runs up and down the pipe just once during the delivery [m/s].</summary>
    private static double OnePeriodMPerS(FlowWindow[] windows, double lengthM)
    {
        double[] deliveries = [.. windows.Select(w => w.Beat.DeliveryLengthS).Order()];
        return 2 * lengthM / deliveries[deliveries.Length / 2];
    }

    /// <summary>The least misfit around the wave speed that cuts the delivery into one period more.</summary>
    private static double Next(List<WaveTrial> trials, double speed, double onePeriod)
    {
        double periods = Math.Max(1, Math.Round(speed / onePeriod));
        (double from, double to) = (speed * (periods + 1 - NextHalfWidth) / periods, speed * (periods + 1 + NextHalfWidth) / periods);
        double least = double.PositiveInfinity;
        foreach (WaveTrial trial in trials)
        {
            least = trial.MPerS >= from && trial.MPerS <= to ? Math.Min(least, trial.Misfit) : least;
        }

        return double.IsFinite(least) ? least : 0;
    }

    private static List<WaveTrial> Trials(WaveScan scan, double site, double onePeriod)
    {
        double from = Math.Min(0.9 * site, Math.Max(LowestShare * site, onePeriod / LongestPeriods));
        var speeds = new List<double>();
        for (double a = from / Math.Pow(Grid, HalfDip); a < HighestShare * site; a *= Grid)
        {
            speeds.Add(a);
        }

        return [.. scan.Try(speeds)];
    }

    /// <summary>The lowest points, each placed by the parabola through it and its neighbours and tried once more there.</summary>
    private static List<WaveTrial> Dips(WaveScan scan, List<WaveTrial> trials)
    {
        var dips = new List<WaveTrial>();
        for (int i = 1; i < trials.Count - 1; i++)
        {
            int from = Math.Max(0, i - HalfDip);
            int to = Math.Min(trials.Count - 1, i + HalfDip);
            bool lowest = true;
            for (int q = from; q <= to; q++)
            {
                lowest &= trials[q].Misfit >= trials[i].Misfit;
            }

            if (!lowest)
            {
                continue;
            }

            double bend = trials[i - 1].Misfit - (2 * trials[i].Misfit) + trials[i + 1].Misfit;
            double offset = bend > 0 ? Math.Clamp(0.5 * (trials[i - 1].Misfit - trials[i + 1].Misfit) / bend, -0.5, 0.5) : 0;
            WaveTrial placed = scan.Try(trials[i].MPerS * Math.Pow(Grid, offset));
            dips.Add(placed.Misfit < trials[i].Misfit ? placed : trials[i]);
        }

        return dips;
    }
}
