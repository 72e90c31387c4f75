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
    private readonly LiftValve _waste;
    private readonly double _supplyHeadM;
    private readonly double _pushN;
    private double _quietS;
    private int _freeOpenings;
    private int _pushes;
    private bool _wasOpen;

    internal Keeper(RamParameters ram, LiftValve waste)
    {
        _waste = waste;
        _supplyHeadM = ram.Supply.HeadM;
        double weight = ram.Water.DensityKgPerM3 * Constants.GravityMPerS2;
        _pushN = 2 * weight * ram.Supply.HeadM * ram.WasteValve.SeatAreaM2;
    }

    internal void Act(double stepS, double bodyHeadM)
    {
        bool leaves = _freeOpenings > BeatsBeforeLeaving || (_pushes >= MostPushes && _waste.PushN == 0);
        if (leaves || _waste.Hold != PlugHold.None)
        {
            _waste.PushN = 0;
            return;
        }

        bool open = _waste.WideOpen;
        if (open && !_wasOpen && _waste.PushN == 0)
        {
            _freeOpenings++;
        }

        _wasOpen = open;
        if (open)
        {
            _waste.PushN = 0;
        }

        bool quiet = _waste.Seated && Math.Abs(bodyHeadM - _supplyHeadM) < 0.2 * _supplyHeadM;
        _quietS = quiet ? _quietS + stepS : 0;
        if (_quietS > PatienceS && _waste.PushN == 0)
        {
            _pushes++;
            _waste.PushN = _pushN;
            _freeOpenings = 0;
        }
    }
}
