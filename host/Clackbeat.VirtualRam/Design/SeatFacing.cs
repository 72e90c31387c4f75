using Clackbeat.Hydraulics.Water;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.VirtualRam.Design;

/// <summary>The rubber or leather that valves close on.</summary>
internal static class SeatFacing
{
    /// <summary>How far the delivery head presses it in, as a share of the pipe's bore; our own estimate, 0.3 mm at 50 mm.</summary>
    private const double PressedShare = 0.006;

    internal static double StiffnessNPerM(double deliveryM, WaterParameters water, PipeParameters pipe, double seatAreaM2) =>
        water.DensityKgPerM3 * Constants.GravityMPerS2 * deliveryM * seatAreaM2 / (PressedShare * pipe.BoreM);
}
