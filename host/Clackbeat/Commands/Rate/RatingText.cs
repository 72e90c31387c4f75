using Clackbeat.Frame;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Report.Wording;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;

namespace Clackbeat.Commands.Rate;

/// <summary>The rating as a person reads it.</summary>
internal static class RatingText
{
    private const int ScaleWidth = 40;

    /// <summary>Writes verdict, figures, parts, notes and the caution.</summary>
    public static void Write(Session session, RamSite site, PipeLoad load, PipeCheck check, RemedyTable? remedies)
    {
        session.Out.WriteLine(site.Name);
        session.Out.WriteLine();
        Layout.Paragraph(session, $"{Verdict(check)} {string.Join(" ", PipeWords.Verdict(check).Select(s => Said(s, site.Units)))}");
        session.Out.WriteLine();
        Layout.Paragraph(session, string.Join(" ", PipeWords.Fatigue(check).Select(s => Said(s, site.Units))));
        session.Out.WriteLine();
        Layout.Pairs(session, Figures(load, check, site.Units));
        if (check.Stretches.Count > 0)
        {
            Heading(session, Phrases.Say("screen.sections-drive-pipe-each-own"));
            Layout.Pairs(session, check.Stretches.Select(s => (s.Name, Part(new FittingCheck(s.Name, s.AllowablePa, s.Verdict), site.Units))));
        }

        if (check.Fittings.Count > 1)
        {
            Heading(session, Phrases.Say("screen.parts-weakest-first"));
            Layout.Pairs(session, check.Fittings.Select(f => (Summary.PartName(f.Name), Part(f, site.Units))));
        }

        Scale(session, check, site.Units);
        if (remedies is not null)
        {
            RemedyText.Write(session, remedies, site.Units);
        }

        Section(session, Phrases.Say("screen.know-beside"), PipeWords.Notes(check).Select(n => Said(n, site.Units)));
        Section(session, Phrases.Say("screen.what-other-sources-rules-would"), check.Alternatives.Select(a =>
            $"{Pressure(a.AllowablePa, site.Units)}: {PipeWords.Basis(a)}"));
        session.Out.WriteLine();
        Layout.Paragraph(session, PipeWords.Deferral);
    }

    private static string Verdict(PipeCheck check) => check.Verdict switch
    {
        PipeVerdict.Within => Phrases.Say("screen.within-pipes-limit"),
        PipeVerdict.Near => Phrases.Say("screen.near-pipes-limit"),
        PipeVerdict.Over => Phrases.Say("screen.over-pipes-limit"),
        _ => Phrases.Say("screen.unknown-whether-pipe-can-take"),
    };

    private static IEnumerable<(string, string)> Figures(PipeLoad load, PipeCheck check, Units units)
    {
        yield return (Phrases.Say("screen.rating"), check.RatedPa is { } rated ? $"{Pressure(rated, units)} ({PipeWords.Source(check.Source)})" : Phrases.Say("screen.known"));
        yield return (Phrases.Say("screen.allowable-again-again"), Known(check.AllowablePa, units));
        yield return (Phrases.Say("screen.peak"), load.PeakPa is null ? Phrases.Say("screen.given-peak") : Known(load.PeakPa, units));
        yield return (Phrases.Say("screen.ceiling-peaks"), check.CeilingPa is { } ceiling
            ? Phrases.Format(QuantityKind.Pressure, ceiling, check.CeilingUncertaintyPa ?? 0, units)
            : Phrases.Say("screen.known"));
        yield return (Phrases.Say("screen.trough"), load.TroughPa is null ? Phrases.Say("screen.given-trough") : Known(load.TroughPa, units));
        if (check.Suction?.CollapsePa is { } collapse)
        {
            yield return (Phrases.Say("screen.suction-makes-wall-buckle"), Pressure(collapse, units));
        }

        yield return (Phrases.Say("screen.fatigue-life"), check.FatigueLifeYears is not null
            ? Summary.Pipe(check).Fatigue ?? Phrases.Say("screen.no-figure")
            : Phrases.Say("screen.no-figure"));
        yield return (Phrases.Say("screen.rule"), PipeWords.Rule(check));
    }

    // A picture for a screen without pictures: every pressure as a bar on one scale.
    private static void Scale(Session session, PipeCheck check, Units units)
    {
        (string Name, double? Pa)[] all =
        [
            (Phrases.Say("screen.peak-2"), check.PeakPa),
            (Phrases.Say("screen.ceiling"), check.CeilingPa + (check.CeilingUncertaintyPa ?? 0)),
            (Phrases.Say("screen.allowed"), check.AllowablePa),
            .. check.Fittings.Where(f => f.Name != FittingCheck.DrivePipe).Select(f => (f.Name, f.AllowablePa)),
        ];
        var known = all.Where(a => a.Pa is > 0).ToList();
        if (known.Count < 2)
        {
            return;
        }

        Heading(session, Phrases.Say("screen.one-scale"));
        double longest = known.Max(a => a.Pa!.Value);
        Layout.Pairs(session, known.Select(a => (
            a.Name, $"{new string('#', Math.Max(1, (int)Math.Round(ScaleWidth * a.Pa!.Value / longest)))} {Pressure(a.Pa.Value, units)}")));
    }

    private static string Part(FittingCheck part, Units units) =>
        $"{Known(part.AllowablePa, units)}, {Summary.Word(part.Verdict)}";

    private static string Said(Sentence sentence, Units units) => sentence.Write(p => p.UncertaintyPa is { } u
        ? Phrases.Format(QuantityKind.Pressure, p.Pa, u, units)
        : Pressure(p.Pa, units));

    private static string Known(double? pressurePa, Units units) => pressurePa is { } known ? Pressure(known, units) : Phrases.Say("screen.known");

    private static string Pressure(double pressurePa, Units units) => Phrases.Format(QuantityKind.Pressure, pressurePa, units);

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
