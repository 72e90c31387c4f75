using Clackbeat.Season.Store;
using Clackbeat.Signal.Analysis;
using Clackbeat.Site;
using Clackbeat.Site.Model;
using Clackbeat.Twin.Fitting;
using Clackbeat.Twin.Shifts;

namespace Clackbeat.Commands.Log;

/// <summary>Fits one twin a day (UTC) to the bursts that are logged, so that wear shows as the trend of a part.</summary>
internal sealed class TwinOfDay(ISeasonStore store, RamSite site, CancellationToken stop)
{
    private static readonly Dictionary<SeasonFigure, SeasonValue> Nothing = [];

    private readonly Lock _gate = new();
    private readonly HashSet<DateOnly> _days = [.. store.Series(site.Name, SeasonFigure.TwinOpening, TimeSpanUtc.All)
        .Select(p => DateOnly.FromDateTime(p.AtUtc.UtcDateTime))];

    /// <summary>What tells more figures of a burst.</summary>
    public MoreFigures More => Of;

    /// <summary>The parts' figures, where the day has no twin yet and the twin fits; else nothing.</summary>
    private Dictionary<SeasonFigure, SeasonValue> Of(RamAnalysis analysis, DateTimeOffset startUtc)
    {
        lock (_gate)
        {
            if (!_days.Add(DateOnly.FromDateTime(startUtc.UtcDateTime)))
            {
                return Nothing;
            }
        }

        return Fit(analysis) is { Fits: true } twin ? Figures(twin) : Nothing;
    }

    private FittedTwin? Fit(RamAnalysis analysis)
    {
        try
        {
            return FittedTwin.Of(site, analysis, stop);
        }
        catch (InputException)
        {
            // A site that carries no ram has no twin; the burst counts all the same.
            return null;
        }
    }

    private static Dictionary<SeasonFigure, SeasonValue> Figures(FittedTwin twin)
    {
        SeasonValue Of(RamPart part)
        {
            var value = PartValue.Of(part, twin);
            return new SeasonValue(Math.Exp(value.Log), 2 * value.StandardU * Math.Exp(value.Log));
        }

        return new Dictionary<SeasonFigure, SeasonValue>
        {
            [SeasonFigure.TwinOpening] = Of(RamPart.Stroke),
            [SeasonFigure.TwinPlugHead] = Of(RamPart.Weight),
            [SeasonFigure.TwinLosses] = Of(RamPart.Losses),
            [SeasonFigure.TwinVesselHead] = Of(RamPart.VesselHead),
            [SeasonFigure.TwinLateness] = Of(RamPart.DeliveryValve),
            [SeasonFigure.TwinGas] = Of(RamPart.PipeGas),
        };
    }
}
