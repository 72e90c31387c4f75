using Clackbeat.Site.Model;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Sensing;
using Clackbeat.Watch.Tuning;

namespace Clackbeat.Watch.Tests;

/// <summary>A virtual ram whose stroke is turned while it is watched, and which can be held still.</summary>
internal sealed class TurnableRam : IRamKnob
{
    private const double RateHz = 1000;

    private readonly RamSite _site;
    private readonly RamDesign _design;
    private readonly Lock _gate = new();
    private RamSimulation _ram;
    private double _strokeM;
    private double _offsetS;
    private double _lastS;
    private int _made;

    public TurnableRam(RamSite site)
    {
        (_site, _design) = (site, RamDesigner.Design(site));
        _strokeM = _design.Ram.WasteValve.TravelM;
        _ram = Made(fromRest: false);
    }

    /// <summary>From here on the body stands at the supply's pressure, as with the waste valve held shut.</summary>
    public bool IsHeld { get; set; }

    public double StrokeMm => 1000 * _strokeM;

    public IReadOnlyList<KnobHint> Hints =>
        [new KnobHint("stroke", _strokeM, 0.5 * _design.Ram.WasteValve.TravelM, 1.6 * _design.Ram.WasteValve.TravelM)];

    public void Turn(string name, double settingSi)
    {
        lock (_gate)
        {
            _strokeM = settingSi;
            (_ram, _offsetS) = (Made(fromRest: true), _lastS + (1 / RateHz));
        }
    }

    public (double TimeS, double PressurePa) Next()
    {
        lock (_gate)
        {
            VirtualSample sample = _ram.Next();
            _lastS = _offsetS + sample.TimeS;
            double restPa = 9810 * _site.Supply.HeadM;
            return (_lastS, IsHeld ? restPa + (20 * Math.Sin(50 * _lastS)) : sample.PressurePa);
        }
    }

    // Coarser steps than a report would want: these tests ask what the page does, not what the ram does.
    private RamSimulation Made(bool fromRest) => new(
        _design.Ram with
        {
            WasteValve = _design.Ram.WasteValve with { TravelM = _strokeM },
            LongestStepS = 5e-4,
            MostReaches = 200,
        },
        _design.Sensor with { RateHz = RateHz },
        new SimulationOptions { Seed = ++_made, FromRest = fromRest });
}
