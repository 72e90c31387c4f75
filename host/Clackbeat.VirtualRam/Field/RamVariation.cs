using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.VirtualRam.Field;

/// <summary>
/// What nobody would know of a ram: valves, body, vessel and main drawn around their design, over wide ranges, so that nothing can be
/// learnt that holds for one set of parameters only.
/// </summary>
public static class RamVariation
{
    /// <summary>
    /// How far the ram strays from usual make is given first, and then everything is drawn within that: a ram that is extreme
    /// in every way at once is rarer in life than in a product of wide ranges.
    /// </summary>
    /// <param name="ram">The ram as designed.</param>
    /// <param name="wild">0 leaves it as it is, 1 takes the whole of each range.</param>
    /// <param name="dice">The dice.</param>
    public static RamParameters Of(RamParameters ram, double wild, Dice dice)
    {
        ArgumentNullException.ThrowIfNull(ram);
        ArgumentNullException.ThrowIfNull(dice);
        double Log(double low, double high) => dice.Log(Math.Pow(low, wild), Math.Pow(high, wild));
        double Bounce(double usual, double high) => usual + (wild * dice.Between(0.02 - usual, high - usual));
        return ram with
        {
            // Twice the usual step makes the study four times as quick; what its coarseness adds is one more way to differ.
            LongestStepS = 2e-4,
            BeatScatter = ram.BeatScatter * Log(0.3, 2),
            Supply = ram.Supply with
            {
                HeadM = ram.Supply.HeadM + dice.Normal(0.01),
                LossCoefficient = ram.Supply.LossCoefficient * Log(0.6, 1.7),
            },
            DrivePipe = ram.DrivePipe with
            {
                WaveSpeedMPerS = ram.DrivePipe.WaveSpeedMPerS * (1 + dice.Normal(0.03)),
                RoughnessM = ram.DrivePipe.RoughnessM * Log(0.5, 2),
                RetardedCompliance = ram.DrivePipe.RetardedCompliance * Log(0.2, 1.5),
            },
            Body = ram.Body with
            {
                ComplianceM2 = ram.Body.ComplianceM2 * Log(0.5, 2),
                GasM3 = ram.Body.GasM3 * Log(0.1, 3),
            },
            WasteValve = ram.WasteValve with
            {
                MassKg = ram.WasteValve.MassKg * Log(0.6, 1.6),
                DampingNSPerM = ram.WasteValve.DampingNSPerM * Log(0.5, 2),
                PreloadN = ram.WasteValve.PreloadN * (1 + (wild * dice.Between(-0.2, 0.1))),
                Rebound = Bounce(ram.WasteValve.Rebound, 0.4),
                SeatStiffnessNPerM = ram.WasteValve.SeatStiffnessNPerM * Log(0.5, 3),
            },
            DeliveryValve = ram.DeliveryValve with
            {
                MassKg = ram.DeliveryValve.MassKg * Log(0.4, 2),
                DampingNSPerM = ram.DeliveryValve.DampingNSPerM * Log(0.5, 2),
                PreloadN = ram.DeliveryValve.PreloadN * Log(0.4, 2),
                InertanceS2PerM2 = ram.DeliveryValve.InertanceS2PerM2 * Log(0.3, 2.5),
                Rebound = Bounce(ram.DeliveryValve.Rebound, 0.5),
                SeatStiffnessNPerM = ram.DeliveryValve.SeatStiffnessNPerM * Log(0.5, 3),
            },
            AirVessel = ram.AirVessel with { GasM3 = ram.AirVessel.GasM3 * Log(0.5, 2) },
            DeliveryMain = ram.DeliveryMain with
            {
                LengthM = ram.DeliveryMain.LengthM * Log(0.5, 2),
                LossCoefficient = ram.DeliveryMain.LossCoefficient * Log(0.5, 4),
            },
        };
    }
}
