using System.Globalization;
using Clackbeat.Frame;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Report.Export;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Commands;

/// <summary>The rating as a person reads it.</summary>
internal static class RatingText
{
    /// <summary>Writes verdict, figures, parts, notes and the caution.</summary>
    public static void Write(Session session, RamSite site, PipeLoad load, PipeCheck check)
    {
        session.Out.WriteLine(site.Name);
        session.Out.WriteLine();
        Layout.Paragraph(session, $"{Verdict(check)} {check.Explanation}");
        session.Out.WriteLine();
        Layout.Pairs(session, Figures(load, check, site.Units));
        if (check.Fittings.Count > 1)
        {
            Heading(session, "Parts, the weakest first");
            Layout.Pairs(session, check.Fittings.Select(f => (f.Name, Part(f, site.Units))));
        }

        Section(session, "To know beside it", check.Notes);
        Section(session, "What other sources or rules would allow", check.Alternatives.Select(a =>
            $"{Pressure(a.AllowablePa, site.Units)}: {a.Basis}"));
        session.Out.WriteLine();
        Layout.Paragraph(session, PipeCheck.Deferral);
    }

    private static string Verdict(PipeCheck check) => check.Verdict switch
    {
        PipeVerdict.Within => "WITHIN what the pipe may bear.",
        PipeVerdict.Near => "NEAR what the pipe may bear.",
        PipeVerdict.Over => "OVER what the pipe may bear.",
        _ => "UNKNOWN whether the pipe bears it.",
    };

    private static IEnumerable<(string, string)> Figures(PipeLoad load, PipeCheck check, Units units)
    {
        yield return ("Rating", check.RatedPa is { } rated ? $"{Pressure(rated, units)} ({check.RatingSource})" : "not known");
        yield return ("Allowable, again and again", Known(check.AllowablePa, units));
        yield return ("Peak", load.PeakPa is null ? "not given (--peak)" : Known(load.PeakPa, units));
        yield return ("Ceiling of the peaks", Known(check.CeilingPa, units));
        yield return ("Trough", load.TroughPa is null ? "not given (--trough)" : Known(load.TroughPa, units));
        if (check.Suction?.CollapsePa is { } collapse)
        {
            yield return ("Suction that folds the wall", Pressure(collapse, units));
        }

        yield return ("Fatigue life", check.FatigueLifeYears is { } life
            ? string.Create(CultureInfo.InvariantCulture, $"{life.Value:G2} years ({life.Low:G2} to {life.High:G3})")
            : "no figure");
        yield return ("Rule", check.Rule.Length > 0 ? check.Rule : "none known for this pipe");
    }

    private static string Part(FittingCheck part, Units units) =>
        $"{Known(part.AllowablePa, units)}, {ContractNames.Of(part.Verdict)}";

    private static string Known(double? pressurePa, Units units) => pressurePa is { } known ? Pressure(known, units) : "not known";

    private static string Pressure(double pressurePa, Units units) => QuantityFormat.Format(QuantityKind.Pressure, pressurePa, units);

    private static void Section(Session session, string heading, IEnumerable<string> sentences)
    {
        var list = sentences.ToList();
        if (list.Count > 0)
        {
            Heading(session, heading);
            Layout.Bullets(session, list);
        }
    }

    private static void Heading(Session session, string words)
    {
        session.Out.WriteLine();
        session.Out.WriteLine(words);
    }
}
