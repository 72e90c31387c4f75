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
    private const int ScaleWidth = 40;

    /// <summary>Writes verdict, figures, parts, notes and the caution.</summary>
    public static void Write(Session session, RamSite site, PipeLoad load, PipeCheck check, RemedyTable? remedies)
    {
        session.Out.WriteLine(site.Name);
        session.Out.WriteLine();
        Layout.Paragraph(session, $"{Verdict(check)} {string.Join(" ", check.Explanation.Select(s => Said(s, site.Units)))}");
        session.Out.WriteLine();
        Layout.Pairs(session, Figures(load, check, site.Units));
        if (check.Fittings.Count > 1)
        {
            Heading(session, "Parts, the weakest first");
            Layout.Pairs(session, check.Fittings.Select(f => (f.Name, Part(f, site.Units))));
        }

        Scale(session, check, site.Units);
        if (remedies is not null)
        {
            RemedyText.Write(session, remedies, site.Units);
        }

        Section(session, "To know beside it", check.Notes.Select(n => Said(n, site.Units)));
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
        yield return ("Ceiling of the peaks", check.CeilingPa is { } ceiling
            ? QuantityFormat.Format(QuantityKind.Pressure, ceiling, check.CeilingUncertaintyPa ?? 0, units)
            : "not known");
        yield return ("Trough", load.TroughPa is null ? "not given (--trough)" : Known(load.TroughPa, units));
        if (check.Suction?.CollapsePa is { } collapse)
        {
            yield return ("Suction that folds the wall", Pressure(collapse, units));
        }

        yield return ("Fatigue life", check.FatigueLifeYears is { } life
            ? string.Create(CultureInfo.InvariantCulture, $"{life.Value:0.##} years ({life.Low:0.##} to {life.High:0.##})")
            : "no figure");
        yield return ("Rule", check.Rule.Length > 0 ? check.Rule : "none known for this pipe");
    }

    // A picture for a screen without pictures: every pressure as a bar on one scale.
    private static void Scale(Session session, PipeCheck check, Units units)
    {
        (string Name, double? Pa)[] all =
        [
            ("peak", check.PeakPa),
            ("ceiling", check.CeilingPa + (check.CeilingUncertaintyPa ?? 0)),
            ("allowed", check.AllowablePa),
            .. check.Fittings.Where(f => f.Name != "drive pipe").Select(f => (f.Name, f.AllowablePa)),
        ];
        var known = all.Where(a => a.Pa is > 0).ToList();
        if (known.Count < 2)
        {
            return;
        }

        Heading(session, "On one scale");
        var longest = known.Max(a => a.Pa!.Value);
        Layout.Pairs(session, known.Select(a => (
            a.Name, $"{new string('#', Math.Max(1, (int)Math.Round(ScaleWidth * a.Pa!.Value / longest)))} {Pressure(a.Pa.Value, units)}")));
    }

    private static string Part(FittingCheck part, Units units) =>
        $"{Known(part.AllowablePa, units)}, {ContractNames.Of(part.Verdict)}";

    private static string Said(Sentence sentence, Units units) => sentence.Write(p => p.UncertaintyPa is { } u
        ? QuantityFormat.Format(QuantityKind.Pressure, p.Pa, u, units)
        : Pressure(p.Pa, units));

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
