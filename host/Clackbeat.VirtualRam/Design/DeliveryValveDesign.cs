using Clackbeat.Hydraulics.Water;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.VirtualRam.Design;

/// <summary>Sizes a delivery valve: a sprung disc over several ports, its loss a few per cent of the delivery head.</summary>
internal static class DeliveryValveDesign
{
    internal static ValveParameters For(double deliveryM, WaterParameters water, PipeParameters pipe, Aim aim, bool lively)
    {
        const double g = Constants.GravityMPerS2;
        double seatArea = 0.6 * pipe.AreaM2;
        double lossM = Math.Max(0.2, 0.04 * deliveryM);
        double share = Math.Clamp(aim.VelocityMPerS / Math.Sqrt(2 * g * lossM), 0.2, 0.6);
        double open = share * pipe.AreaM2;
        // Ports give two and a half times the edge of a single disc, which keeps the lift small.
        double gapWidth = 2.5 * 0.62 * Math.PI * Math.Sqrt(4 / Math.PI * seatArea);
        double travel = 1.25 * open / gapWidth;
        double weight = water.DensityKgPerM3 * g;
        double softness = lively ? 0.6 : 1;
        double preloadM = softness * 0.4 * lossM;
        double fullM = softness * 0.9 * lossM;
        double size = Math.Pow(pipe.BoreM / 0.05, 3);
        double mass = (lively ? 0.15 : 0.05) * size;
        return new ValveParameters
        {
            SeatAreaM2 = seatArea,
            TravelM = travel,
            MassKg = mass,
            PreloadN = weight * seatArea * preloadM,
            SpringNPerM = weight * seatArea * (fullM - preloadM) / travel,
            DampingNSPerM = 30 * mass,
            GapWidthM = gapWidth,
            PassageAreaM2 = open / Math.Sqrt(1 - 1 / (1.25 * 1.25)),
            InertanceS2PerM2 = (lively ? 0.2 : 0.04) / (g * seatArea),
            Rebound = lively ? 0.35 : 0.05,
            SeatStiffnessNPerM = SeatFacing.StiffnessNPerM(deliveryM, water, pipe, seatArea),
        };
    }
}
