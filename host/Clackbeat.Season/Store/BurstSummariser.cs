using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Figures;
using Clackbeat.Site.Check;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;
using Clackbeat.Words;

namespace Clackbeat.Season.Store;

/// <summary>From a burst's analysis to what the store keeps of it.</summary>
public static class BurstSummariser
{
    /// <summary>Sums a burst up.</summary>
    /// <param name="site">The ram.</param>
    /// <param name="analysis">The burst's analysis.</param>
    /// <param name="startUtc">Instant of its first sample.</param>
    /// <param name="sourceHash">Hash of what was recorded.</param>
    /// <param name="batteryV">The logger's battery [V]; null where it isn't measured.</param>
    public static SeasonBurst Of(RamSite site, RamAnalysis analysis, DateTimeOffset startUtc, byte[] sourceHash, double? batteryV = null)
    {
        var figures = new Dictionary<SeasonFigure, SeasonValue>();
        void Keep(SeasonFigure figure, double? value, double? u = null)
        {
            if (value is { } v && double.IsFinite(v))
            {
                figures[figure] = new SeasonValue(v, u is { } finite && double.IsFinite(finite) ? finite : null);
            }
        }

        void KeepFigure(SeasonFigure figure, Figure? value)
        {
            Keep(figure, value?.Value, value?.U);
            if (value is { IsUpperBound: true } && figures.TryGetValue(figure, out SeasonValue kept))
            {
                figures[figure] = kept with { IsUpperBound = true };
            }
        }

        KeepFigure(SeasonFigure.Rate, analysis.Beats.RatePerMin);
        Keep(SeasonFigure.Irregularity, analysis.Beats.Irregularity);
        KeepFigure(SeasonFigure.DeliveryPressure, analysis.Pressure.Delivery);
        Keep(SeasonFigure.PeakMedian, analysis.Pressure.PeakMedianPa);
        Keep(SeasonFigure.PeakMax, analysis.Pressure.PeakMaxPa);
        KeepFigure(SeasonFigure.PeakTrue, analysis.Pressure.PeakTrue);
        Keep(SeasonFigure.Suction, analysis.Pressure.SuctionMinPa);
        Keep(SeasonFigure.MeanPressure, analysis.Pressure.MeanPa);
        KeepFigure(SeasonFigure.Delivered, analysis.Flow.DeliveredM3PerS);
        KeepFigure(SeasonFigure.Waste, analysis.Flow.WasteM3PerS);
        KeepFigure(SeasonFigure.Drawn, analysis.Flow.DrawnM3PerS);
        KeepFigure(SeasonFigure.ClosingVelocity, analysis.Flow.ClosingVelocityMPerS);
        KeepFigure(SeasonFigure.Efficiency, analysis.Efficiency.DAubuisson);
        KeepFigure(SeasonFigure.Rankine, analysis.Efficiency.Rankine);
        KeepFigure(SeasonFigure.DriveSide, analysis.Efficiency.DriveSide);
        Keep(
            SeasonFigure.SupplyHead,
            analysis.FoundSupplyHeadM?.Value ?? site.Supply.HeadM,
            analysis.FoundSupplyHeadM?.U ?? site.Supply.HeadUncertaintyM);
        KeepFigure(SeasonFigure.WaveSpeed, analysis.DrivePipe.WaveSpeedMPerS);
        Keep(SeasonFigure.RatingUse, 1 / analysis.Pipe.Margin);
        if (analysis.Pipe.FatigueLifeYears is { } life)
        {
            // A life counts the hours a year that the check was told the ram runs.
            double hoursPerYear = SiteLoad.Of(site).RunningHoursPerYear;
            Keep(SeasonFigure.FatiguePerHour, 1 / (life.Value * hoursPerYear));
            Keep(SeasonFigure.FatiguePerHourLow, 1 / (life.High * hoursPerYear));
            Keep(SeasonFigure.FatiguePerHourHigh, 1 / (life.Low * hoursPerYear));
        }

        Keep(SeasonFigure.Battery, batteryV, SiteSensing.BatteryUncertaintyShare * batteryV);
        return new SeasonBurst
        {
            Ram = site.Name,
            SourceHash = sourceHash,
            Source = analysis.Input.File,
            StartUtc = startUtc,
            DurationS = analysis.Input.DurationS,
            State = analysis.State,
            Completeness = Catalogue.English.Completeness(analysis.Input.AllLosses),
            Figures = figures,
            Conditions = analysis.Diagnosis.ToDictionary(f => f.Condition, f => f.Probability),
            Beats = [.. analysis.BeatList.Select(BeatOf)],
        };
    }

    private static SeasonBeat BeatOf(Signal.Beats.Beat beat) =>
        new(beat.ClosureS, beat.IntervalS, beat.PeakPa, beat.DeliveryPa, beat.SuctionPa, beat.Flow);
}
