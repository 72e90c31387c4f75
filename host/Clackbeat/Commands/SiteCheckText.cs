using Clackbeat.Frame;
using Clackbeat.Hydraulics;
using Clackbeat.Site.Check;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Commands;

/// <summary>The check of a site file as a person reads it.</summary>
internal static class SiteCheckText
{
    /// <summary>Writes expected figures, advice and left-out keys.</summary>
    public static void Write(Session session, SiteCheck check)
    {
        var units = check.Site!.Units;
        session.Out.WriteLine(check.Site.Name);
        if (check.Expected is { } expected)
        {
            Heading(session, "What to expect of this ram");
            Layout.Pairs(session, Figures(expected, units));
            session.Out.WriteLine();
            Layout.Paragraph(
                session,
                "These are ranges by common practice for a ram of these dimensions; how the waste valve is set decides "
                + "where in them yours lies. They are no measurement.");
        }

        if (check.Advice.Count > 0)
        {
            Heading(session, "Worth a thought");
            Layout.Bullets(session, check.Advice);
        }

        if (check.LeftOut.Count > 0)
        {
            Heading(session, "Left out of the file, and what that weakens");
            Layout.Pairs(session, check.LeftOut.Select(l => (string.Join("\n", l.Keys), l.Weakens)));
        }
    }

    private static IEnumerable<(string, string)> Figures(ExpectedFigures expected, Units units)
    {
        string Between(QuantityKind kind, Band band) => QuantityFormat.FormatRange(kind, band.Low, band.High, units);
        var ram = expected.Ram;
        yield return ("Beats", $"{ram.BeatsPerMin.Low:0} to {ram.BeatsPerMin.High:0} a minute");
        yield return ("Velocity at closure", Between(QuantityKind.Velocity, ram.ClosingVelocityMPerS));
        yield return ("Least that delivers", QuantityFormat.Format(QuantityKind.Velocity, ram.LeastClosingVelocityMPerS, units, 2));
        yield return ("Delivered", Between(QuantityKind.Flow, ram.DeliveredM3PerS));
        yield return ("To waste", Between(QuantityKind.Flow, ram.WasteM3PerS));
        yield return ("Efficiency (D'Aubuisson)", Between(QuantityKind.Share, ram.DAubuisson));
        yield return ("Pressure at rest", QuantityFormat.Format(QuantityKind.Pressure, expected.StaticPa, units));
        yield return ("Pressure of delivery", QuantityFormat.Format(QuantityKind.Pressure, expected.DeliveryPa, units));
        yield return ("Ceiling of the peaks", Between(QuantityKind.Pressure, ram.PeakCeilingPa));
        yield return ("Wave speed", QuantityFormat.Format(QuantityKind.Velocity, expected.Hydraulics.WaveSpeedMPerS, units));
        yield return ("Pipe period (2L/a)", QuantityFormat.Format(QuantityKind.Duration, ram.PipePeriodS, units));
        yield return ("Sampling rate", $"{QuantityFormat.Format(QuantityKind.Frequency, expected.LeastSamplingRateHz, units)} or more");
        var sensing = expected.Sensing;
        yield return ("Pressures read truly", Between(QuantityKind.Pressure, sensing.UsablePa));
        yield return ("One count", QuantityFormat.Format(QuantityKind.Pressure, sensing.StepPa, units, 2));
        yield return ("Filter's corner", QuantityFormat.Format(QuantityKind.Frequency, sensing.Filter.CornerHz, units, 2));
        if (sensing.TapLineHz is { } tapLine)
        {
            yield return ("Tap line rings at", QuantityFormat.Format(QuantityKind.Frequency, tapLine, units, 2));
        }

        if (sensing.BatteryDays is { } days)
        {
            yield return ("Battery lasts", $"{days:0} days");
        }
    }

    private static void Heading(Session session, string words)
    {
        session.Out.WriteLine();
        session.Out.WriteLine(words);
    }
}
