using Clackbeat.Hydraulics.Water;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.VirtualRam.Conditions;

/// <summary>
/// Turns a well ram into one with a fault, by changing what would have changed on the real one. How far severity 1 goes is
/// our own choice (common practice where a range is known): bad enough to be unmistakable, while most rams still beat.
/// </summary>
public static class FaultEffects
{
    /// <summary>The ram with the lasting part of the fault in its parameters.</summary>
    public static RamParameters Apply(RamParameters ram, Fault fault)
    {
        ArgumentNullException.ThrowIfNull(ram);
        ArgumentNullException.ThrowIfNull(fault);
        double severity = fault.Severity;
        if (!(severity is >= 0 and <= 1))
        {
            throw new ArgumentOutOfRangeException(nameof(fault), severity, "Severity goes from 0 to 1.");
        }

        return fault.Condition switch
        {
            RamCondition.WasteValveLeaking => ram with { WasteValve = Leak(ram.WasteValve, 0.011 * severity * ram.WasteValve.SeatAreaM2) },
            RamCondition.DeliveryValveLeaking => ram with { DeliveryValve = Leak(ram.DeliveryValve, DeliveryLeakM2(ram, severity)) },
            RamCondition.DeliveryValveLate => ram with { DeliveryValve = Late(ram, severity) },
            RamCondition.AirVesselWaterlogged => ram with
            {
                AirVessel = ram.AirVessel with { GasM3 = ram.AirVessel.GasM3 * Math.Pow(0.04, severity) },
            },
            RamCondition.AirInDrivePipe => AirInPipe(ram, severity),
            RamCondition.SupplyStarved => Starve(ram, fault),
            RamCondition.DeliveryRestricted => Restrict(ram, severity),
            RamCondition.DeliveryMainLeaking => ram with { DeliveryMain = LeakyMain(ram, fault) },
            RamCondition.WasteValveWorn => ram with { WasteValve = Worn(ram.WasteValve, severity) },
            RamCondition.OutletDrowned => ram with { Body = ram.Body with { TailwaterM = ram.Body.TailwaterM + 0.4 * severity * ram.Supply.HeadM } },
            RamCondition.SecondRam => SecondRam(ram, severity),
            RamCondition.DrivePipeSilted => Silted(ram, severity),
            RamCondition.SnifterTooLarge => ram with
            {
                Body = ram.Body with { SnifterAreaM2 = ram.Body.SnifterAreaM2 + 0.006 * severity * ram.DrivePipe.AreaM2 },
            },
            _ => ram,
        };
    }

    /// <summary>The waste valve once its lock nut has slipped: up to three tenths more stroke, while weight and spring stay.</summary>
    internal static ValveParameters Slipped(ValveParameters valve, double severity) => valve with
    {
        TravelM = valve.TravelM * (1 + 0.3 * severity),
        PreloadN = valve.PreloadN * (valve.Floats ? 1 + 0.3 * severity : 1),
    };

    /// <summary>The sensor with the lasting part of a sensor fault in its parameters.</summary>
    public static SensorParameters Apply(SensorParameters sensor, Fault fault)
    {
        ArgumentNullException.ThrowIfNull(sensor);
        ArgumentNullException.ThrowIfNull(fault);
        // A bubble in the tap line rings slowly: 6.7 Hz is a published case (check values 3.2, a 150 ms ring).
        return fault is { Condition: RamCondition.SensorFault, SensorFault: SensorFaultKind.AirInTap }
            ? sensor with { NaturalFrequencyHz = 40 - 33 * fault.Severity, DampingRatio = 0.15 }
            : sensor;
    }

    /// <summary>Largest force with which a hanging plug still lets go under the steady flow [N].</summary>
    internal static double LargestStickN(RamParameters ram)
    {
        double steady = SteadyOpenHeadM(ram);
        double weight = ram.Water.DensityKgPerM3 * Constants.GravityMPerS2;
        ValveParameters valve = ram.WasteValve;
        double lift = weight * steady * valve.SeatAreaM2 * valve.ForceShare(valve.RestLiftM);
        return Math.Max(0, 0.9 * lift - valve.OpeningForceN(valve.RestLiftM));
    }

    /// <summary>Head in the body with the waste valve held open and the flow steady [m].</summary>
    internal static double SteadyOpenHeadM(RamParameters ram)
    {
        ValveParameters valve = ram.WasteValve;
        double open = valve.OpenAreaM2(valve.RestLiftM) + valve.LeakAreaM2;
        double valveLoss = Math.Pow(ram.DrivePipe.AreaM2 / open, 2);
        double pipeLoss = Design.RigidCycle.PipeLoss(ram, 1) * 2 * Constants.GravityMPerS2;
        return ram.Supply.HeadM * valveLoss / (valveLoss + pipeLoss);
    }

    private static ValveParameters Leak(ValveParameters valve, double areaM2) =>
        valve with { LeakAreaM2 = valve.LeakAreaM2 + areaM2 };

    /// <summary>A leak that, at severity 1, lets three quarters of a healthy ram's delivery run back under the delivery head.</summary>
    private static double DeliveryLeakM2(RamParameters ram, double severity)
    {
        double jet = Math.Sqrt(2 * Constants.GravityMPerS2 * ram.DeliveryMain.OutletHeadM);
        return 0.75 * severity * Design.RamDesigner.ExpectedDeliveryM3PerS(ram) / jet;
    }

    /// <summary>
    /// A hole that, at severity 1, would let one and a half of a healthy ram's delivery out under the head of the main at rest: then
    /// hardly anything arrives, and above the hole the main is empty.
    /// </summary>
    private static MainParameters LeakyMain(RamParameters ram, Fault fault)
    {
        MainParameters main = ram.DeliveryMain;
        double jet = Math.Sqrt(2 * Constants.GravityMPerS2 * main.OutletHeadM * (1 - fault.LeakAt));
        return main with
        {
            LeakAreaM2 = main.LeakAreaM2 + 1.5 * fault.Severity * Design.RamDesigner.ExpectedDeliveryM3PerS(ram) / jet,
            LeakAt = fault.LeakAt,
        };
    }

    /// <summary>
    /// Rubber worn thin and soft: the plug seats later, so at severity 1 its stroke is a quarter longer; the facing gives twice as much,
    /// and a fifth of the worst leak remains. The stop, and the force of weight and spring there, stay as they were.
    /// </summary>
    private static ValveParameters Worn(ValveParameters valve, double severity)
    {
        double further = 0.25 * severity * valve.RestLiftM;
        FlapParameters? flap = valve.Flap is { } hung ? hung with { RestRad = hung.RestRad + further / hung.ArmM } : null;
        double preload = flap is null
            ? valve.PreloadN + valve.SpringNPerM * further
            : valve.PreloadN * Math.Sin(flap.RestRad) / Math.Sin(valve.Flap!.RestRad);
        return Leak(valve, 0.0022 * severity * valve.SeatAreaM2) with
        {
            TravelM = valve.TravelM + further,
            PreloadN = preload,
            SeatStiffnessNPerM = valve.SeatStiffnessNPerM * (1 - 0.5 * severity),
            Flap = flap,
        };
    }

    /// <summary>A ram that beats a seventh faster, and at severity 1 delivers as much as this one.</summary>
    private static RamParameters SecondRam(RamParameters ram, double severity)
    {
        var own = Design.RigidCycle.Of(ram);
        return ram with
        {
            DeliveryMain = ram.DeliveryMain with
            {
                NeighbourM3PerS = ram.DeliveryMain.NeighbourM3PerS + severity * own.DeliveryM3PerS,
                NeighbourPeriodS = severity > 0 ? own.PeriodS / (1 + 1 / 7.0) : ram.DeliveryMain.NeighbourPeriodS,
            },
        };
    }

    /// <summary>Up to three tenths of every section filled, and the wall up to a millimetre rougher.</summary>
    private static RamParameters Silted(RamParameters ram, double severity)
    {
        PipeParameters Of(PipeParameters pipe) => pipe with
        {
            BoreM = pipe.BoreM * Math.Sqrt(1 - 0.3 * severity),
            RoughnessM = pipe.RoughnessM + 1e-3 * severity,
        };
        return ram with { DrivePipe = Of(ram.DrivePipe), Upstream = ram.Upstream.Count == 0 ? ram.Upstream : [.. ram.Upstream.Select(Of)] };
    }

    /// <summary>
    /// A worn or badly set valve: a weak spring, and guides so stiff that at severity 1 it needs one and a half delivery phases to fall
    /// shut by itself.
    /// </summary>
    private static ValveParameters Late(RamParameters ram, double severity)
    {
        ValveParameters valve = ram.DeliveryValve;
        double fallS = 1.5 * severity * Design.RigidCycle.Of(ram).DeliveryS;
        double closing = (1 - 0.5 * severity) * (valve.PreloadN + 0.5 * valve.SpringNPerM * valve.TravelM);
        return valve with
        {
            PreloadN = valve.PreloadN * (1 - 0.5 * severity),
            SpringNPerM = valve.SpringNPerM * (1 - 0.5 * severity),
            DampingNSPerM = valve.DampingNSPerM + closing * fallS / valve.TravelM,
        };
    }

    /// <summary>Bubbles all along the pipe, up to 0.12 % by volume at the supply's mean pressure.</summary>
    private static RamParameters AirInPipe(RamParameters ram, double severity)
    {
        WaterParameters water = ram.Water;
        double pressure = water.AtmospherePa
            + water.DensityKgPerM3 * Constants.GravityMPerS2 * 0.5 * ram.Supply.HeadM;
        double share = 1.2e-3 * severity * severity * pressure / water.AtmospherePa;
        return ram with
        {
            DrivePipe = ram.DrivePipe with { GasShare = ram.DrivePipe.GasShare + share },
            Upstream = ram.Upstream.Count == 0 ? ram.Upstream : [.. ram.Upstream.Select(s => s with { GasShare = s.GasShare + share })],
        };
    }

    private static RamParameters Starve(RamParameters ram, Fault fault) => fault.StarvedBy switch
    {
        StarvedBy.LowLevel => ram with
        {
            Supply = ram.Supply with
            {
                HeadM = ram.Supply.HeadM * (1 - 0.4 * fault.Severity),
                SubmergenceM = ram.Supply.SubmergenceM * (1 - 0.9 * fault.Severity),
            },
        },
        StarvedBy.HalfShutGate => ram with { Body = ram.Body with { GateLoss = ram.Body.GateLoss + Blocked(ram, fault.Severity) } },
        _ => ram with
        {
            Supply = ram.Supply with
            {
                // The strainer sits at the intake, where a wider section takes the same flow more slowly.
                LossCoefficient = ram.Supply.LossCoefficient
                    + Blocked(ram, fault.Severity) * Math.Pow(ram.Sections[0].AreaM2 / ram.DrivePipe.AreaM2, 2),
            },
        },
    };

    /// <summary>A strainer that at severity 1 takes as much of the steady flow's head as all else together.</summary>
    private static double Blocked(RamParameters ram, double severity)
    {
        double rest = ram.Supply.HeadM / Math.Max(0.05 * ram.Supply.HeadM, ram.Supply.HeadM - SteadyOpenHeadM(ram));
        return severity * rest * (1 + ram.Supply.LossCoefficient) * 2;
    }

    /// <summary>A throttle that, at severity 1, asks for about as much again as the static head at the flow of a healthy ram.</summary>
    private static RamParameters Restrict(RamParameters ram, double severity)
    {
        MainParameters main = ram.DeliveryMain;
        double area = Math.PI / 4 * main.BoreM * main.BoreM;
        double velocity = Design.RamDesigner.ExpectedDeliveryM3PerS(ram) / area;
        double extra = severity * main.OutletHeadM * 2 * Constants.GravityMPerS2 / (velocity * velocity);
        return ram with { DeliveryMain = main with { LossCoefficient = main.LossCoefficient + extra } };
    }
}
