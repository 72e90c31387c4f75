using Clackbeat.Tuning.Trials;

namespace Clackbeat.Tuning.Search;

/// <summary>A working trial in a picture.</summary>
/// <param name="Index">Which, from 0.</param>
/// <param name="Setting">Setting, in the knob's unit.</param>
/// <param name="Value">The aim's figure: flow [m³/s], efficiency, or peak [Pa].</param>
/// <param name="Low">Lower end of its ± (k = 2) as between trials of this session: what all trials share is left out.</param>
/// <param name="High">Upper end.</param>
public readonly record struct PicturedTrial(int Index, double Setting, double Value, double Low, double High);

/// <summary>The session as a picture: the aim's figure over the setting, the curve through it, and where nothing may be tried.</summary>
/// <param name="Trials">The working trials.</param>
/// <param name="Curve">The curve; empty with fewer than three of them.</param>
/// <param name="Barred">Settings that may not be tried.</param>
public sealed record TuningPicture(IReadOnlyList<PicturedTrial> Trials, IReadOnlyList<CurvePoint> Curve, IReadOnlyList<BarredRange> Barred)
{
    /// <summary>The picture of a session.</summary>
    public static TuningPicture Of(TuningSession session)
    {
        ArgumentNullException.ThrowIfNull(session);
        var repeats = Repeatability.Of(session.Working, session.Score);
        PicturedTrial[] trials =
        [
            .. session.Trials.Select((t, i) => (Trial: t, Index: i)).Where(t => t.Trial.Works).Select(t =>
            {
                double value = Figure(session.Aim, t.Trial);
                double factor = Math.Exp(2 * repeats.Of(t.Trial));
                return new PicturedTrial(t.Index, t.Trial.Setting, value, value / factor, value * factor);
            }),
        ];
        return new TuningPicture(
            trials, TuningCurve.Of(session, t => Figure(session.Aim, t), s => Figure(session.Aim, s), r => Figure(session.Aim, r)), NextSetting.Barred(session));
    }

    private static double Figure(TuningAim aim, Trial trial) => aim switch
    {
        TuningAim.MostDelivered => trial.DeliveredM3PerS!.Value.Value,
        TuningAim.LeastWasted => trial.Efficiency!.Value.Value,
        _ => trial.PeakPa!.Value.Value,
    };

    private static double Figure(TuningAim aim, Stretch stretch) => aim switch
    {
        TuningAim.MostDelivered => stretch.DeliveredM3PerS,
        TuningAim.LeastWasted => stretch.Efficiency,
        _ => stretch.PeakPa,
    };

    private static double Figure(TuningAim aim, LogRatios told) => aim switch
    {
        TuningAim.MostDelivered => told.Delivered,
        TuningAim.LeastWasted => told.Efficiency,
        _ => told.Peak,
    };
}
