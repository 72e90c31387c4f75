using Clackbeat.Signal.Figures;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;
using Clackbeat.Site.Quantities;
using Clackbeat.Twin.Air;
using Clackbeat.Twin.Changes;
using Clackbeat.Twin.Model;
using Clackbeat.Watch.Figures;

namespace Clackbeat.Watch.Twins;

/// <summary>The twin of the newest minute, for the page.</summary>
internal sealed record TwinMessage(string Phase, double Share, double ForS)
{
    /// <summary>How long ago the minute that it was fitted to ended [s].</summary>
    public double? AgeS { get; init; }

    /// <summary>Beats of that minute.</summary>
    public int? Beats { get; init; }

    /// <summary>The measured beat.</summary>
    public TwinCurve? Measured { get; init; }

    /// <summary>The twin's beat laid over it.</summary>
    public TwinCurve? Twin { get; init; }

    /// <summary>The ram as it is.</summary>
    public TwinColumn? AsIs { get; init; }

    /// <summary>The sliders.</summary>
    public IReadOnlyList<TwinKnob>? Knobs { get; init; }

    /// <summary>The slider of the air; null where it can't be changed.</summary>
    public TwinAir? Air { get; init; }

    /// <summary>What to know beside the figures: ends of keys of the page's words.</summary>
    public IReadOnlyList<string>? Notes { get; init; }

    /// <summary>The message of a state.</summary>
    public static TwinMessage Of(TwinDesk desk)
    {
        TwinState state = desk.State;
        TimeProvider clock = TimeProvider.System;
        var bare = new TwinMessage(
            System.Text.Json.JsonNamingPolicy.KebabCaseLower.ConvertName(state.Phase.ToString()), state.Share,
            state.Phase == TwinPhase.Fitting ? Math.Floor(clock.GetElapsedTime(state.BeganAt).TotalSeconds) : 0);
        if (state.Live is not { } live)
        {
            return bare;
        }

        RamSite site = desk.Site;
        TwinMessage drawn = bare with
        {
            AgeS = Math.Floor(clock.GetElapsedTime(live.MadeAt).TotalSeconds),
            Beats = live.Beats,
            Measured = TwinCurve.Of(site, live.Twin.Measured.Head, live.Twin.Measured.IntervalS),
            Twin = TwinCurve.Of(site, live.Twin.Laid(live.Twin.Cycle), live.Twin.Cycle.IntervalS),
        };
        return state.Phase != TwinPhase.Ready ? drawn : drawn with
        {
            AsIs = TwinColumn.Of(site, live.Questions.AsIs with { VesselSwingPa = live.Questions.VesselSwingPa }),
            Knobs = TwinKnob.For(site),
            Air = live.Questions.AirNow is { } air ? TwinAir.Of(air) : null,
            Notes = [.. NotesOf(site, live)],
        };
    }

    private static IEnumerable<string> NotesOf(RamSite site, LiveTwin live)
    {
        if (live.Questions.Disagreement is not null)
        {
            yield return "disagree";
        }

        if (live.Twin.IsOfSoftSpring)
        {
            yield return "soft-spring";
        }

        if (site.WasteValve.StrokeM is null)
        {
            yield return "stroke-weak";
        }

        if (live.Questions.AirNow is { IsOpen: true })
        {
            yield return "air-open";
        }
    }
}

/// <summary>What a change would do.</summary>
/// <param name="Then">The ram then; its figures are null where it stands.</param>
/// <param name="Beat">Its beat; null where it stands.</param>
/// <param name="Now">The twin's beat as it is, with its vessel at work; null where that isn't asked about.</param>
internal sealed record TriedMessage(TwinColumn Then, TwinCurve? Beat, TwinCurve? Now);

/// <summary>The figures of a ram.</summary>
/// <param name="Rows">Figures that can be told.</param>
/// <param name="WillBeat">Probability that it beats, 0 to 1.</param>
/// <param name="Pipe">The drive pipe against its rating.</param>
internal sealed record TwinColumn(IReadOnlyList<TwinRow> Rows, double WillBeat, string Pipe)
{
    /// <summary>The column of a ram.</summary>
    /// <param name="site">The site as it is then.</param>
    /// <param name="ram">The ram.</param>
    public static TwinColumn Of(RamSite site, Prediction ram) => new(
        [
            .. Row("rate", QuantityKind.Frequency, ram.RatePerMin), .. Row("delivered", QuantityKind.Flow, ram.DeliveredM3PerS),
            .. Row("waste", QuantityKind.Flow, ram.WasteM3PerS), .. Row("peak", QuantityKind.Pressure, ram.PeakPa),
            .. Row("efficiency", QuantityKind.Share, ram.Efficiency), .. Row("swing", QuantityKind.Pressure, ram.VesselSwingPa),
        ],
        ram.WillBeat,
        ForetoldPipe.Of(site, ram).PressureVerdict.ToString().ToLowerInvariant());

    private static IEnumerable<TwinRow> Row(string id, QuantityKind kind, Figure? figure) =>
        figure is { } f ? [new TwinRow(id, Reading.Of(kind, f, Units.Metric), Reading.Of(kind, f, Units.Us))] : [];
}

/// <summary>One figure in both systems of units.</summary>
internal sealed record TwinRow(string Id, Reading Metric, Reading Us);

/// <summary>The slider of the air.</summary>
/// <param name="Now">The place that is nearest to the air of now.</param>
/// <param name="Places">The air at each place.</param>
/// <param name="Told">The air of now; the least that there is where the record gives no upper end.</param>
/// <param name="IsOpen">The record gives no upper end.</param>
internal sealed record TwinAir(int Now, IReadOnlyList<TwinRow> Places, TwinRow Told, bool IsOpen)
{
    /// <summary>The slider of a vessel.</summary>
    public static TwinAir Of(VesselAir air) => new(
        TwinAirs.Now(air),
        [.. Enumerable.Range(0, TwinAirs.Count).Select(i => Volume(TwinAirs.M3(air, i)))],
        Volume(air.IsOpen ? air.LowM3 : air.M3),
        air.IsOpen);

    private static TwinRow Volume(double m3)
    {
        var figure = new Figure(m3, 0);
        return new TwinRow("air", Reading.Of(QuantityKind.Volume, figure, Units.Metric), Reading.Of(QuantityKind.Volume, figure, Units.Us));
    }
}

/// <summary>A beat for drawing.</summary>
/// <param name="StartS">Time of the first point; 0 is where the knock is half way up [s].</param>
/// <param name="StepS">Step [s].</param>
/// <param name="Kpa">Gauge pressures at the sensor [kPa].</param>
internal sealed record TwinCurve(double StartS, double StepS, IReadOnlyList<double> Kpa)
{
    private const int Points = 480;
    private const double LeadShare = 0.12;
    private const double Kilo = 1000;

    /// <summary>The curve of one beat. Of what falls on one point the head that stands out most is taken, so that no knock is lost.</summary>
    public static TwinCurve Of(RamSite site, HeadCurve head, double intervalS)
    {
        double metre = SiteHydraulics.Of(site).PressurePa(1) / Kilo;
        double startS = -LeadShare * intervalS;
        double stepS = (intervalS - startS) / Points;
        int within = Math.Max(1, (int)Math.Ceiling(stepS / head.StepS));
        double[] points = new double[Points];
        double last = head.At(startS);
        for (int i = 0; i < Points; i++)
        {
            double from = startS + (i * stepS);
            last = Enumerable.Range(0, within).Select(j => head.At(from + (j * stepS / within))).MaxBy(h => Math.Abs(h - last));
            points[i] = Math.Round(metre * (last - site.Sensor.HeightM), 1);
        }

        return new TwinCurve(startS, stepS, points);
    }
}
