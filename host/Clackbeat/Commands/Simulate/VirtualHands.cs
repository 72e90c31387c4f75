using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Parameters;
using Clackbeat.Watch.Checks;

namespace Clackbeat.Commands.Simulate;

/// <summary>Makes the tests by hand at a virtual ram.</summary>
internal sealed class VirtualHands(VirtualChain chain) : IRamHands
{
    // A gate that is shut passes next to nothing.
    private const double TightM2 = 1e-9;
    private const double ShorterStroke = 0.75;

    public double? ArrivingM3PerS => chain.ArrivingM3PerS;

    public void Act(string test, string phase)
    {
        switch (phase)
        {
            case "hold":
                chain.Change(was => was with { Body = was.Body with { SnifterAreaM2 = 0 } }, hands: ram => ram.HoldWasteValve());
                break;
            case "gate":
                chain.Do(ram => ram.ShutGate(TightM2));
                break;
            case "release":
                chain.Do(ram => ram.PushWasteValveOpen());
                break;
            case "do":
                chain.Change(test == "stroke" ? Shorter : was => was, Mends(test));
                break;
        }
    }

    public void Leave(string test)
    {
        if (test != "bucket")
        {
            chain.Change(was => was, Mends(test));
        }
    }

    private static RamParameters Shorter(RamParameters was) =>
        was with { WasteValve = was.WasteValve with { TravelM = ShorterStroke * was.WasteValve.TravelM } };

    private bool Mends(string test) => (test, chain.Fault.Condition) is
        ("intake", RamCondition.SupplyStarved) or ("bleed", RamCondition.AirInDrivePipe) or ("vent", RamCondition.AirVesselWaterlogged);
}
