using Clackbeat.Hydraulics;
using Clackbeat.Hydraulics.Ram;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Hydraulics.Water;
using Clackbeat.Planning.Pipework;
using Clackbeat.Planning.Wishes;
using Clackbeat.Planning.Yields;
using Clackbeat.Site.Check;
using Clackbeat.Site.Model;

namespace Clackbeat.Planning.Plans;

/// <summary>Works one layout of rams out in full.</summary>
internal static class ChoiceMaker
{
    // 20 to 50 times what a beat delivers, of air under pressure (agencies' manuals, common practice); a vessel is some two thirds air.
    private const double AirPerBeat = 30;
    private const double AirShare = 0.6;
    private const double LeastVesselM3 = 0.001;

    // Suction of a strong recoil; the pipe's wall is judged against it.
    private const double RecoilPa = -5e4;

    internal static RamChoice Make(PlanWish wish, DriveSize size, int count, WaterProperties water, bool withTrial)
    {
        var length = DriveLength.Choose(wish.SupplyHeadM, size.BoreM, wish.ShortestDrivePipeM, wish.LongestDrivePipeM);
        Band efficiency = EfficiencyLaw.Of(wish.Kind, wish.SupplyHeadM, wish.LiftM);
        double drive = Math.Min(wish.SupplyFlowM3PerS, count * size.MostFlowM3PerS);
        double wettest = wish.MonthlyFlowM3PerS.Select(q => Math.Min(q, count * size.MostFlowM3PerS)).Append(drive).Max();
        var main = DeliveryMain.Choose(Delivered(wish, efficiency, wettest, 0).High, wish.LiftM, wish.DeliveryLengthM, water, wish.InchMain);
        // A length that nobody gave is no reason to promise less.
        double friction = main.IsLengthAssumed ? 0 : main.FrictionM;
        (RamSite bareSite, string? bareText) = SiteDraft.Of(wish, size, length.LengthM, main, null);
        ExpectedRam expected = ExpectedFigures.For(bareSite).Ram;
        VirtualTrial? trial = withTrial ? VirtualTrial.Run(bareSite) : null;
        Band delivered = Delivered(wish, efficiency, drive, friction);
        Band beats = trial is null ? expected.BeatsPerMin : Wider(trial.BeatsPerMin);
        double vessel = Vessel(trial?.DeliveredPerBeatM3.High ?? delivered.High / count / (beats.Low / 60));
        (RamSite site, string? text) = SiteDraft.Of(wish, size, length.LengthM, main, vessel);
        Band peak = trial is null
            ? expected.PeakCeilingPa
            : new Band(trial.PeakPa.Low, Math.Max(trial.PeakPa.High, Math.Min(expected.PeakCeilingPa.High, 1.3 * trial.PeakPa.High)));
        var choice = new RamChoice
        {
            Wish = wish,
            Count = count,
            Size = size,
            Length = length,
            Main = main,
            DriveFlowM3PerS = drive,
            Efficiency = efficiency,
            DeliveredM3PerS = delivered,
            DryDeliveredM3PerS = AtFlow(wish, size, count, efficiency, wish.LeastFlowM3PerS, friction).Delivered,
            Months = Months(wish, size, count, efficiency, friction),
            BeatsPerMin = beats,
            PeakPa = peak,
            Pipe = Judge(site, peak.High, beats.High),
            AirVesselM3 = vessel,
            Intake = Intake.For(drive / count, trial?.ClosingMPerS.High ?? expected.ClosingVelocityMPerS.High, size.BoreM),
            Site = site,
            SiteText = text,
            Trial = trial,
            Reasons = [],
        };
        return choice with { Reasons = [.. PlanFacts.Reasons(wish, choice)] };
    }

    // q = η Q H / h, friction on top of the lift.
    private static Band Delivered(PlanWish wish, Band efficiency, double driveFlow, double frictionM)
    {
        double perEfficiency = driveFlow * wish.SupplyHeadM / (wish.LiftM + frictionM);
        return new Band(efficiency.Low * perEfficiency, efficiency.High * perEfficiency);
    }

    private static (int Running, Band Delivered) AtFlow(
        PlanWish wish, DriveSize size, int count, Band efficiency, double flow, double frictionM)
    {
        int able = Math.Min(count, (int)Math.Floor(flow / size.LeastFlowM3PerS + 1e-9));
        if (able == 0)
        {
            return (0, new Band(0, 0));
        }

        int needed = (int)Math.Ceiling(flow / size.MostFlowM3PerS - 1e-9);
        int usual = (int)Math.Round(flow / (DriveSize.UsualMPerS * size.AreaM2));
        int running = Math.Clamp(usual, Math.Min(Math.Max(needed, 1), able), able);
        return (running, Delivered(wish, efficiency, Math.Min(flow, running * size.MostFlowM3PerS), frictionM));
    }

    private static IReadOnlyList<PlanMonth> Months(PlanWish wish, DriveSize size, int count, Band efficiency, double frictionM) =>
        [.. wish.MonthlyFlowM3PerS.Select((flow, i) =>
        {
            (int running, Band delivered) = AtFlow(wish, size, count, efficiency, flow, frictionM);
            return new PlanMonth(i + 1, flow, running, delivered, wish.MonthlyNeedM3PerS.Count == 12 ? wish.MonthlyNeedM3PerS[i] : null);
        })];

    private static double Vessel(double perBeatM3) => Math.Max(LeastVesselM3, AirPerBeat * perBeatM3 / AirShare);

    // A keeper sets stroke and weight, and with them the rate: by a third either way of what the virtual ram was set to.
    private static Band Wider(Band beats) => new(beats.Low / 1.33, beats.High * 1.33);

    private static PipeCheck Judge(RamSite site, double peakPa, double beatsPerMin) => PipeRating.Check(SiteLoad.Of(site) with
    {
        PeakPa = peakPa,
        PeakUncertaintyPa = 0,
        TroughPa = RecoilPa,
        BeatsPerMin = beatsPerMin,
    });
}
