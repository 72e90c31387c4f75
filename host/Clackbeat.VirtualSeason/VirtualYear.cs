using System.Security.Cryptography;
using Clackbeat.Season.Store;
using Clackbeat.Signal.Beats;
using Clackbeat.Signal.States;
using Clackbeat.Site.Model;
using MathNet.Numerics.Distributions;

namespace Clackbeat.VirtualSeason;

/// <summary>A year of a virtual ram as the bursts a logger would have left, with the truth beside them.</summary>
public sealed class VirtualYear
{
    // What a burst's figures scatter by from burst to burst, and what whole days share: invented, of the size the flow method states.
    private const double BurstScatter = 0.02;
    private const double DayScatter = 0.006;
    private const double DayMemory = 0.4;
    private const double StatedShare = 0.06;
    private const double HeadScatterM = 0.01;
    private const double LostBursts = 0.005;

    private readonly RamSite _site;
    private readonly SeasonScript _script;
    private readonly int _seed;
    private readonly RamSurface _surface;
    private readonly Weather _weather;

    private VirtualYear(RamSite site, SeasonScript script, int seed, RamSurface surface)
    {
        (_site, _script, _seed, _surface) = (site, script, seed, surface);
        _weather = new Weather(script.Days, new Random(seed));
    }

    /// <summary>Runs the virtual ram for a year's conditions.</summary>
    /// <param name="site">The ram.</param>
    /// <param name="script">What happens.</param>
    /// <param name="seed">Of all that is random.</param>
    /// <param name="stop">Ends the work early.</param>
    public static VirtualYear Of(RamSite site, SeasonScript script, int seed = 1, CancellationToken stop = default) =>
        new(site, script, seed, RamSurface.Run(site, stop));

    /// <summary>The same ram in another year; runs nothing anew.</summary>
    /// <param name="script">What happens.</param>
    /// <param name="seed">Of all that is random.</param>
    public VirtualYear Again(SeasonScript script, int seed) => new(_site, script, seed, _surface);

    /// <summary>What the keeper noted.</summary>
    public IEnumerable<MaintenanceMark> Marks()
    {
        if (_script.Stuck is not null)
        {
            yield return new MaintenanceMark(_site.Name, Noon(_script.Freed), "freed a twig from the waste valve");
        }

        if (_script.Replaced is { } replaced)
        {
            yield return new MaintenanceMark(_site.Name, Noon(replaced), "replaced clack rubber");
        }
    }

    /// <summary>The bursts, oldest first, made as they are asked for.</summary>
    public IEnumerable<SeasonBurst> Bursts()
    {
        var random = new Random(unchecked((_seed * 7919) + 1));
        double shared = 0;
        int aDay = (int)(TimeSpan.FromDays(1) / _script.Every);
        for (int day = 0; day < _script.Days; day++)
        {
            DateOnly date = _script.Start.AddDays(day);
            shared = (DayMemory * shared) + Normal.Sample(random, 0, DayScatter * Math.Sqrt(1 - (DayMemory * DayMemory)));
            for (int i = 0; i < aDay; i++)
            {
                if (random.NextDouble() >= LostBursts && !_script.IsSilent(date))
                {
                    DateTimeOffset start = new DateTimeOffset(date.ToDateTime(TimeOnly.MinValue), TimeSpan.Zero) + (i * _script.Every);
                    yield return Burst(day, date, start, shared, random);
                }
            }
        }
    }

    /// <summary>What really happened.</summary>
    public SeasonTruth Truth()
    {
        const double reference = 0.9;
        double H = _site.Supply.HeadM * reference;
        double Efficiency(DateOnly day) => Of(_surface.At(reference, _script.WearOn(day), 10, sticking: false), H);
        var days = Enumerable.Range(0, _script.Days).Select(d => (Index: d, Date: _script.Start.AddDays(d))).ToList();
        var frozen = days.Where(d => _script.IsFrozen(d.Date)).ToList();
        (DateOnly from, DateOnly to) = (_script.Replaced ?? _script.Start, days[^1].Date);
        return new SeasonTruth(
            Changes(), H, (Efficiency(to) - Efficiency(from)) / (to.DayNumber - from.DayNumber) * 365,
            24.0 * (days.Count - frozen.Count), 24.0 * frozen.Count,
            days.Where(d => !_script.IsFrozen(d.Date) && !_script.IsSilent(d.Date)).Sum(d => 86_400 * PointOn(d.Index, d.Date).DeliveredM3PerS));
    }

    private List<(DateOnly, string)> Changes()
    {
        var changes = new List<(DateOnly, string)>();
        if (_script.Stuck is { } stuck)
        {
            changes.Add((stuck, "a twig lodges in the waste valve"));
            changes.Add((_script.Freed, "it is freed"));
        }

        if (_script.Replaced is { } replaced)
        {
            changes.Add((replaced, "the clack rubber is replaced"));
        }

        return changes;
    }

    private RamPoint PointOn(int day, DateOnly date) =>
        _surface.At(_weather.HeadShare(day, date), _script.WearOn(date), Weather.TemperatureC(date), _script.IsSticking(date));

    private double Of(RamPoint point, double headM) =>
        point.DeliveredM3PerS * _site.Delivery.HeadM / ((point.DeliveredM3PerS + point.WasteM3PerS) * headM);

    private SeasonBurst Burst(int day, DateOnly date, DateTimeOffset start, double shared, Random random)
    {
        double headM = _site.Supply.HeadM * _weather.HeadShare(day, date);
        bool frozen = _script.IsFrozen(date);
        RamPoint point = PointOn(day, date);
        var figures = new Dictionary<SeasonFigure, SeasonValue>
        {
            [SeasonFigure.SupplyHead] = new(headM + Normal.Sample(random, 0, HeadScatterM), 2 * HeadScatterM),
        };
        if (!frozen)
        {
            Fill(figures, point, Of(point, headM), shared, random, _script.IsSticking(date));
        }

        return new SeasonBurst
        {
            Ram = _site.Name,
            SourceHash = SHA256.HashData(System.Text.Encoding.UTF8.GetBytes($"virtual {_site.Name} {_seed} {start:O}")),
            Source = "virtual year",
            StartUtc = start,
            DurationS = _script.BurstS,
            State = frozen ? RamState.StoppedShut : RamState.Beating,
            Figures = figures,
            Conditions = _script.IsSticking(date) ? new Dictionary<string, double> { ["waste-valve-sticking"] = 0.8 } : new Dictionary<string, double> { ["healthy"] = 0.8 },
            Beats = frozen ? [] : Beats(point, random),
        };
    }

    private static void Fill(
        Dictionary<SeasonFigure, SeasonValue> figures, RamPoint point, double efficiency, double shared, Random random, bool sticking)
    {
        void AddFigure(SeasonFigure figure, double value, double scatter, double stated) =>
            figures[figure] = new SeasonValue(value * (1 + shared + Normal.Sample(random, 0, scatter)), Math.Abs(stated * value));

        AddFigure(SeasonFigure.Efficiency, efficiency, BurstScatter, StatedShare);
        AddFigure(SeasonFigure.Delivered, point.DeliveredM3PerS, BurstScatter, StatedShare);
        AddFigure(SeasonFigure.Waste, point.WasteM3PerS, BurstScatter, StatedShare);
        AddFigure(SeasonFigure.Drawn, point.DeliveredM3PerS + point.WasteM3PerS, BurstScatter, StatedShare);
        AddFigure(SeasonFigure.ClosingVelocity, point.ClosingVelocityMPerS, BurstScatter, StatedShare);
        AddFigure(SeasonFigure.PeakTrue, point.PeakPa, BurstScatter, StatedShare);
        AddFigure(SeasonFigure.PeakMedian, point.PeakPa, BurstScatter, 0);
        AddFigure(SeasonFigure.PeakMax, 1.05 * point.PeakPa, BurstScatter, 0);
        AddFigure(SeasonFigure.DeliveryPressure, point.DeliveryPa, 0.2 * BurstScatter, 0.01);
        AddFigure(SeasonFigure.Suction, point.SuctionPa, BurstScatter, 0);
        AddFigure(SeasonFigure.RatingUse, point.RatingUse, BurstScatter, 0);
        figures[SeasonFigure.Rate] = new SeasonValue(point.RatePerMin * (1 + Normal.Sample(random, 0, 0.002)), 0.004 * point.RatePerMin);
        figures[SeasonFigure.Irregularity] = new SeasonValue((sticking ? 0.2 : 0.02) * (1 + Math.Abs(Normal.Sample(random, 0, 0.2))), null);
        if (point.FatiguePerHour > 0)
        {
            figures[SeasonFigure.FatiguePerHour] = new SeasonValue(point.FatiguePerHour, null);
            figures[SeasonFigure.FatiguePerHourLow] = new SeasonValue(point.FatigueLow, null);
            figures[SeasonFigure.FatiguePerHourHigh] = new SeasonValue(point.FatigueHigh, null);
        }
    }

    private List<SeasonBeat> Beats(RamPoint point, Random random)
    {
        var beats = new List<SeasonBeat>();
        double usualS = 60 / point.RatePerMin;
        for (double at = random.NextDouble() * usualS; ;)
        {
            double intervalS = usualS * (1 + (0.02 * ((2 * random.NextDouble()) - 1)));
            if (at + intervalS > _script.BurstS)
            {
                return beats;
            }

            double Near(double value, double share) => value * (1 + (share * ((2 * random.NextDouble()) - 1)));
            beats.Add(new SeasonBeat(
                at, intervalS, Near(point.PeakPa, 0.05), Near(point.DeliveryPa, 0.005), Near(point.SuctionPa, 0.05),
                new BeatFlow(Near(point.ClosingVelocityMPerS, 0.02), Near(point.DeliveredM3PerS * usualS, 0.05), Near(point.WasteM3PerS * usualS, 0.03))));
            at += intervalS;
        }
    }

    private static DateTimeOffset Noon(DateOnly day) => new(day.ToDateTime(new TimeOnly(12, 0)), TimeSpan.Zero);
}
