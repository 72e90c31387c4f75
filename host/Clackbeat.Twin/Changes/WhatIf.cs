using Clackbeat.Hydraulics.Ram;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Figures;
using Clackbeat.Signal.Flow;
using Clackbeat.Site.Model;
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
        _willBeat = new WillBeat(twin);
        _nearness = Discrepancy.Nearness(twin.Frame.Ram(twin.Values), twin.Cycle.ClosingVelocityMPerS);
        AsIs = Measured(analysis);
    }

    /// <summary>The ram as it is.</summary>
    public Prediction AsIs { get; }

    /// <summary>Delivered flow by the record alone, and by the twin, where they are further apart than the record's uncertainty [m³/s]; else null.</summary>
    public (Figure Record, double Twin)? Disagreement { get; private set; }

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
        if (Run(ram) is not { } cycle)
        {
            return new Prediction { WillBeat = _willBeat.Of(ram, beats: false) };
        }

        var ratios = Ratios.Of(_twin.Cycle, cycle);
        Ratios spreads = Spreads(change, ratios, Discrepancy.Nearness(ram, cycle.ClosingVelocityMPerS) - _nearness);
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

    /// <summary>Standard uncertainties of the ratios, as shares: by the twin's parameters, and by the model's make.</summary>
    private Ratios Spreads(RamChange change, Ratios at, double nearer)
    {
        var squares = new Ratios(0, 0, 0, 0);
        foreach ((double[] values, Cycle? before) in _others)
        {
            if (Run(change.Ram(_twin.Frame.Ram(values), _twin.Frame.Site)) is { } after)
            {
                var moved = Ratios.Of(before, after);
                squares = squares.With(moved, (s, m, a) => s + Math.Pow(Math.Log(m / a), 2), at);
            }
        }

        if (change.IsOtherMake && Run(Stiffer(change.Ram(_twin.Frame.Ram(_twin.Values), _twin.Frame.Site))) is { } stiffer)
        {
            squares = squares.With(Ratios.Of(_twin.Cycle, stiffer), (s, m, a) => s + Math.Pow(Math.Log(m / a), 2), at);
        }

        return Discrepancy.OfValve(Discrepancy.Of(at, squares.Each(Math.Sqrt), _twin.Birge, nearer), _twin);
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
}
