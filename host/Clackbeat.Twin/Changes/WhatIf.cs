using Clackbeat.Hydraulics.Ram;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Figures;
using Clackbeat.Signal.Flow;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;
using Clackbeat.Twin.Air;
using Clackbeat.Twin.Fitting;
using Clackbeat.Twin.Model;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.Twin.Changes;

/// <summary>
/// What a change would do: the measured figure times the ratio of the twin's figures after and before, so that what the model misses in
/// both cancels. Without a measured figure the twin's own stands, with a wider uncertainty.
/// </summary>
public sealed class WhatIf
{
    private readonly RamSite _site;
    private readonly FittedTwin _twin;
    private readonly List<(double[] Values, Cycle Cycle)> _others;
    private readonly Lazy<AirRuns?> _air;
    private readonly WillBeat _willBeat;
    private readonly double _nearness;

    /// <summary>Prepares the questions to a twin; the runs that tell its uncertainty are made once.</summary>
    /// <param name="site">The site.</param>
    /// <param name="analysis">The analysis of the record.</param>
    /// <param name="twin">The twin fitted to it.</param>
    public WhatIf(RamSite site, RamAnalysis analysis, FittedTwin twin)
    {
        ArgumentNullException.ThrowIfNull(analysis);
        ArgumentNullException.ThrowIfNull(twin);
        (_site, _twin) = (site, twin);
        double[][] neighbours = [.. Neighbours.Of(twin)];
        Cycle?[] cycles = SideBySide.Of(neighbours.Length, i => CycleRun.Of(twin.Frame.Ram(neighbours[i]), twin.Measured.IntervalS));
        _others = [.. neighbours.Zip(cycles, (v, cycle) => (v, cycle!)).Where(p => p.Item2 is not null)];
        _air = new Lazy<AirRuns?>(() => AirRuns.Of(twin, [.. _others.Select(o => o.Values)]));
        _willBeat = new WillBeat(twin);
        _nearness = Discrepancy.Nearness(twin.Frame.Ram(twin.Values), twin.Cycle.ClosingVelocityMPerS);
        AsIs = Measured(analysis);
    }

    /// <summary>The ram as it is.</summary>
    public Prediction AsIs { get; }

    /// <summary>Delivered flow by the record alone, and by the twin, where they are further apart than the record's uncertainty [m³/s]; else null.</summary>
    public (Figure Record, double Twin)? Disagreement { get; private set; }

    /// <summary>How much air the vessel holds as it is, as far as the record tells; null where the twin stands with its vessel at work.</summary>
    public VesselAir? AirNow => _air.Value?.Now;

    /// <summary>The twin's beat with its vessel at work and the air of now; null where it stands so.</summary>
    public Cycle? BeatWithAir => _air.Value?.Cycle;

    /// <summary>How far the pressure in the vessel swings over a beat as it is [Pa]; null where the twin stands with its vessel at work.</summary>
    public Figure? VesselSwingPa => _air.Value is { } air
        ? Swing(air.Cycle.VesselSwingM, [.. air.Others.Select(o => o.Cycle.VesselSwingM), .. air.Less.Select(l => l.Cycle.VesselSwingM)])
        : null;

    /// <summary>The ram after a change.</summary>
    /// <param name="change">The change.</param>
    /// <exception cref="Site.InputException">No ram can work there.</exception>
    public Prediction Of(RamChange change)
    {
        ArgumentNullException.ThrowIfNull(change);
        if (change.IsNone)
        {
            return AsIs;
        }

        RamSite changedSite = change.Site(_site);
        RamParameters ram = change.Ram(_twin.Frame.Ram(_twin.Values), _twin.Frame.Site);
        Answers? answers = change.IsOfAir ? WithAir(change, ram) : Standing(change, ram);
        if (answers is not { Cycle: { } cycle } told)
        {
            return new Prediction { WillBeat = _willBeat.Of(ram, beats: false) };
        }

        Ratios ratios = told.Ratios;
        Ratios spreads = Discrepancy.OfValve(
            Discrepancy.Of(ratios, told.Spreads, _twin.Birge, Discrepancy.Nearness(ram, cycle.ClosingVelocityMPerS) - _nearness), _twin);
        Figure? Scaled(Figure? figure, Func<Ratios, double> part) => figure is { } f
            ? Expanded.Of(f.Value * part(ratios), 0, double.PositiveInfinity, f.StandardU * part(ratios), f.Value * part(ratios) * part(spreads)) with
            {
                IsUpperBound = f.IsUpperBound,
            }
            : null;
        // Neither the flow of a flap's record nor its twin's ratio is worth a ±.
        Figure? delivered = _twin.IsOfFlap ? null : Scaled(AsIs.DeliveredM3PerS, r => r.Delivered);
        Figure? waste = _twin.IsOfFlap ? null : Scaled(AsIs.WasteM3PerS, r => r.Waste);
        return new Prediction
        {
            RatePerMin = Scaled(AsIs.RatePerMin, r => r.Rate),
            DeliveredM3PerS = delivered,
            WasteM3PerS = waste,
            PeakPa = Scaled(AsIs.PeakPa, r => r.Peak),
            VesselSwingPa = told.SwingsM.Count > 0 ? Swing(cycle.VesselSwingM, told.SwingsM) : null,
            Efficiency = Efficiency(changedSite, delivered, waste),
            Beat = cycle,
            WillBeat = _willBeat.Of(ram, beats: true),
        };
    }

    /// <summary>
    /// Figures after a change over those before: by the twin, then by each parameter set about one standard deviation from it; a set
    /// whose ram stands after the change tells what the twin does. Null where the twin stands.
    /// </summary>
    /// <param name="change">The change.</param>
    public (Ratios Twin, IReadOnlyList<Ratios> Others)? RatiosOf(RamChange change)
    {
        ArgumentNullException.ThrowIfNull(change);
        if (Run(change.Ram(_twin.Frame.Ram(_twin.Values), _twin.Frame.Site)) is not { } cycle)
        {
            return null;
        }

        var twin = Ratios.Of(_twin.Cycle, cycle);
        return (twin, [.. _others.Select(o => Run(change.Ram(_twin.Frame.Ram(o.Values), _twin.Frame.Site)) is { } after ? Ratios.Of(o.Cycle, after) : twin)]);
    }

    private Cycle? Run(RamParameters ram) => CycleRun.Of(ram, _twin.Measured.IntervalS);

    // Each of the other parameter sets tells another ratio: the root of their squares is the spread.
    private Answers? Standing(RamChange change, RamParameters ram)
    {
        if (Run(ram) is not { } cycle)
        {
            return null;
        }

        var at = Ratios.Of(_twin.Cycle, cycle);
        IEnumerable<Ratios> moved = _others
            .Select(o => (o.Cycle, After: Run(change.Ram(_twin.Frame.Ram(o.Values), _twin.Frame.Site))))
            .Where(o => o.After is not null)
            .Select(o => Ratios.Of(o.Cycle, o.After!));
        if (change.IsOtherMake && Run(Stiffer(ram)) is { } stiffer)
        {
            moved = moved.Append(Ratios.Of(_twin.Cycle, stiffer));
        }

        return new Answers(cycle, at, Spread(at, moved), []);
    }

    // Before and after the change the vessel is at work. How much air it holds now is one more number that is known within a spread.
    private Answers? WithAir(RamChange change, RamParameters ram)
    {
        if (_air.Value is not { } air || Run(WorkingVessel.Of(ram, _twin, Then(air.Now.M3))) is not { } cycle)
        {
            return null;
        }

        var at = Ratios.Of(air.Cycle, cycle);
        var after = new List<(Cycle Before, Cycle After)>();
        foreach ((double[] values, Cycle before) in air.Others)
        {
            Add(before, change.Ram(_twin.Frame.Ram(values), _twin.Frame.Site), air.Now.M3);
        }

        foreach ((double airM3, Cycle before) in air.Less)
        {
            Add(before, ram, airM3);
        }

        if (change.IsOtherMake)
        {
            Add(air.Cycle, Stiffer(ram), air.Now.M3);
        }

        return new Answers(cycle, at, Spread(at, after.Select(a => Ratios.Of(a.Before, a.After))), [.. after.Select(a => a.After.VesselSwingM)]);

        double Then(double nowM3) => change.AirM3 ?? (change.Air * nowM3);

        void Add(Cycle before, RamParameters changed, double nowM3)
        {
            if (Run(WorkingVessel.Of(changed, _twin, Then(nowM3))) is { } moved)
            {
                after.Add((before, moved));
            }
        }
    }

    private static Ratios Spread(Ratios at, IEnumerable<Ratios> moved) => moved
        .Aggregate(new Ratios(0, 0, 0, 0), (squares, m) => squares.With(m, (s, r, a) => s + Math.Pow(Math.Log(r / a), 2), at))
        .Each(Math.Sqrt);

    private Figure Swing(double swingM, IReadOnlyList<double> othersM)
    {
        double unit = SiteHydraulics.Of(_site).PressurePa(1);
        double squares = othersM.Sum(o => Math.Pow(Math.Log(Math.Max(o, 1e-9) / Math.Max(swingM, 1e-9)), 2));
        return Expanded.Of(unit * swingM, 0, double.PositiveInfinity, unit * swingM * Math.Sqrt(squares), unit * swingM * Discrepancy.SwingShare);
    }

    private static RamParameters Stiffer(RamParameters ram)
    {
        PipeParameters Of(PipeParameters pipe) => pipe with { WaveSpeedMPerS = pipe.WaveSpeedMPerS * (1 + Discrepancy.WaveSpeedByTheory) };
        return ram with { DrivePipe = Of(ram.DrivePipe), Upstream = [.. ram.Upstream.Select(Of)] };
    }

    // A bucket is better than both, and a twin that doesn't fit tells no flow.
    private bool Mixes(RamAnalysis analysis) => _twin.Fits && _site.FlowScale is null && !analysis.Findings.Any(f => f.Code is "flow-scale-made" or "flow-scale-used");

    private Prediction Measured(RamAnalysis analysis)
    {
        FlowSummary flow = analysis.WhileBeating?.Flow ?? analysis.Flow;
        Cycle own = _twin.Cycle;
        Disagreement = flow.DeliveredM3PerS is { } q && Math.Abs((own.DeliveredM3 / own.IntervalS) - q.Value) > q.U ? (q, own.DeliveredM3 / own.IntervalS) : null;
        Figure? Flow(Figure? measured, double twin) => measured is { } m
            ? Mixes(analysis) ? Discrepancy.Together(m, twin) : m
            : _twin.Fits ? Discrepancy.Alone(twin) : null;
        Figure? delivered = Flow(flow.DeliveredM3PerS, own.DeliveredM3 / own.IntervalS);
        Figure? waste = Flow(flow.WasteM3PerS, own.WasteM3 / own.IntervalS);
        Figure rate = analysis.Beats.RatePerMin ?? Discrepancy.Alone(60 / own.IntervalS);
        return new Prediction
        {
            RatePerMin = rate,
            DeliveredM3PerS = delivered,
            WasteM3PerS = waste,
            PeakPa = analysis.Pressure.PeakTrue ?? (analysis.Pressure.PeakMedianPa is { } p ? new Figure(p, 0.1 * p) : null),
            Efficiency = Mixes(analysis)
                ? Efficiency(_site, delivered, waste)
                : (analysis.WhileBeating?.Efficiency ?? analysis.Efficiency).DAubuisson ?? Efficiency(_site, delivered, waste),
            WillBeat = analysis.IsStopped ? _willBeat.Of(_twin.Frame.Ram(_twin.Values), beats: true) : 1,
        };
    }

    private static Figure? Efficiency(RamSite site, Figure? delivered, Figure? waste)
    {
        if (delivered is not { Value: > 0 } q || waste is not { Value: > 0 } w)
        {
            return null;
        }

        double value = RamEfficiency.DAubuisson(q.Value, w.Value, site.Supply.HeadM, site.Delivery.HeadM);
        // q/(q + w): flows of one record are wrong together by the bore, which this leaves in; so it is no smaller than it should be.
        double share = w.Value / (q.Value + w.Value);
        double spread = share * Math.Sqrt(Math.Pow(q.StandardU / q.Value, 2) + Math.Pow(w.StandardU / w.Value, 2));
        double level = 0.5 * (site.Supply.HeadUncertaintyM ?? 0) / site.Supply.HeadM;
        return Expanded.Of(value, 0, double.PositiveInfinity, value * spread, value * level) with { IsUpperBound = q.IsUpperBound };
    }

    /// <summary>What the runs of a change tell.</summary>
    /// <param name="Cycle">The beat after it.</param>
    /// <param name="Ratios">Figures after it over those before.</param>
    /// <param name="Spreads">Their standard uncertainties by what isn't known of the ram, as shares.</param>
    /// <param name="SwingsM">Swings of the vessel by the other parameter sets; empty while it stands.</param>
    private sealed record Answers(Cycle Cycle, Ratios Ratios, Ratios Spreads, IReadOnlyList<double> SwingsM);
}
