using Clackbeat.Hydraulics.Water;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.VirtualRam.Solver;

/// <summary>
/// Starts the ram as people do: while the waste valve stands shut and the body is quiet, pushes it open and lets go; leaves
/// for good after a few beats that needed no hand, or when many pushes did not help.
/// </summary>
internal sealed class Keeper
{
    private const double PatienceS = 0.4;
    private const int BeatsBeforeLeaving = 4;
    private const int MostPushes = 8;
    private readonly LiftValve waste;
    private readonly double supplyHeadM;
    private readonly double pushN;
    private double quietS;
    private int freeOpenings;
    private int pushes;
    private bool wasOpen;

    internal Keeper(RamParameters ram, LiftValve waste)
    {
        this.waste = waste;
        supplyHeadM = ram.Supply.HeadM;
        var weight = ram.Water.DensityKgPerM3 * Constants.GravityMPerS2;
        pushN = 2 * weight * ram.Supply.HeadM * ram.WasteValve.SeatAreaM2;
    }

    internal void Act(double stepS, double bodyHeadM)
    {
        var leaves = freeOpenings > BeatsBeforeLeaving || (pushes >= MostPushes && waste.PushN == 0);
        if (leaves || waste.Hold != PlugHold.None)
        {
            waste.PushN = 0;
            return;
        }

        var open = waste.Opening == 1;
        if (open && !wasOpen && waste.PushN == 0)
        {
            freeOpenings++;
        }

        wasOpen = open;
        if (open)
        {
            waste.PushN = 0;
        }

        var quiet = waste.Seated && Math.Abs(bodyHeadM - supplyHeadM) < 0.2 * supplyHeadM;
        quietS = quiet ? quietS + stepS : 0;
        if (quietS > PatienceS && waste.PushN == 0)
        {
            pushes++;
            waste.PushN = pushN;
            freeOpenings = 0;
        }
    }
}
