using Clackbeat.Hydraulics.Water;
using Clackbeat.VirtualRam.Parameters;
using Clackbeat.Watch.Tuning;

namespace Clackbeat.Commands.Simulate;

/// <summary>Stroke and weight of a virtual ram's waste valve, to be turned while it is watched.</summary>
internal sealed class VirtualKnob(VirtualChain chain, RamParameters ram) : IRamKnob
{
    private const string Stroke = "stroke";
    private const string Weight = "weight";

    // Rams run over about this part of their range; what stops them is found by trying.
    private const double ShortestShare = 0.5;
    private const double LongestShare = 1.6;

    // Discs of steel laid on the valve, weighed in air; under water they weigh an eighth less.
    private const double SubmergedShare = 1 - (1 / 7.85);
    private const double HeaviestShare = 0.5;

    private double _strokeM = ram.WasteValve.TravelM;
    private double _addedKg;

    public IReadOnlyList<KnobHint> Hints =>
    [
        new KnobHint(Stroke, _strokeM, ShortestShare * ram.WasteValve.TravelM, LongestShare * ram.WasteValve.TravelM),
        new KnobHint(Weight, _addedKg, 0, HeaviestShare * ram.WasteValve.PreloadN / (Constants.GravityMPerS2 * SubmergedShare)),
    ];

    public void Turn(string name, double settingSi)
    {
        (_strokeM, _addedKg) = name == Stroke ? (settingSi, _addedKg) : (_strokeM, settingSi);
        (double travelM, double moreKg) = (_strokeM, _addedKg);
        chain.Change(was => was with
        {
            WasteValve = was.WasteValve with
            {
                TravelM = travelM,
                MassKg = was.WasteValve.MassKg + moreKg,
                PreloadN = was.WasteValve.PreloadN + (moreKg * Constants.GravityMPerS2 * SubmergedShare),
            },
        });
    }
}
