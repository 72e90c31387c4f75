using Clackbeat.Signal.Diagnosis;
using Clackbeat.Signal.Figures;
using Clackbeat.Words;
using ScottPlot;

namespace Clackbeat.Report.Plots;

/// <summary>The typical beat beside the same ram's when it was well, with the part shaded that tells.</summary>
internal static class SignaturePlot
{
    private const double Bar = 1e-5;

    // Half of the longest name in any language, as a share of the picture's width.
    private const double NarrowNameShare = 0.25;
    private const double WideNameShare = 0.1;

    // Where the open phase is shown, the knock runs out of the picture at its left: the key stands behind it.
    private const double KeyBehindKnock = 0.3;
    private const double KeyAtLeft = 0.02;

    /// <summary>Whether a part of the beat can be pointed at in one beat.</summary>
    public static bool CanDraw(Signature? signature, IReadOnlyList<BeatPart> parts) =>
        signature is { Typical.TimeS.Count: > 50 } && parts.Count > 0;

    /// <summary>Draws the two beats.</summary>
    /// <param name="now">The record's typical beat.</param>
    /// <param name="well">The same ram's when it was well; null without a baseline.</param>
    /// <param name="parts">The parts that tell, the clearest first.</param>
    /// <param name="frame">Size.</param>
    public static Plot Draw(Signature now, Signature? well, IReadOnlyList<BeatPart> parts, Frame frame)
    {
        bool low = parts[0] is BeatPart.Open or BeatPart.Rhythm or BeatPart.Level;
        double lastS = Math.Max(now.Typical.TimeS[^1], well?.Typical.TimeS[^1] ?? 0);
        double endS = low ? lastS : Math.Min(lastS, 1.9 * Math.Max(now.DeliveryEndS, well?.DeliveryEndS ?? 0));
        double startS = low ? now.Typical.TimeS[0] : Math.Max(now.Typical.TimeS[0], -0.25 * now.DeliveryEndS);
        var sheet = new Sheet(frame);
        (double bottom, double top) = Range([now, .. well is null ? (Signature[])[] : [well]], startS, endS, low);
        sheet.PressureAxis(bottom, top);
        sheet.TimeAxis(startS, endS, Phrases.Say("plots.time-after-waste-valve-shuts"));
        Shade(sheet, now, parts, startS, endS, top, frame);
        (double, double) pixel = sheet.Pixel(endS - startS, top - bottom);
        if (well is not null)
        {
            Line(sheet, well.Typical, startS, endS, pixel, Ink.Vermilion, LinePattern.Dashed);
        }

        Line(sheet, now.Typical, startS, endS, pixel, Ink.Blue, LinePattern.Solid);
        Key(sheet, well is not null, startS, endS, bottom, top, low ? KeyBehindKnock : KeyAtLeft);
        return sheet.Plot;
    }

    /// <summary>Where a part lies in a beat [s after closure].</summary>
    internal static (double FromS, double ToS) Stretch(Signature beat, BeatPart part) => part switch
    {
        BeatPart.Closure => (-0.03 * beat.DeliveryEndS, 0.12 * beat.DeliveryEndS),
        BeatPart.Plateau => (0.12 * beat.DeliveryEndS, 0.88 * beat.DeliveryEndS),
        BeatPart.Fall => (0.88 * beat.DeliveryEndS, 1.15 * beat.DeliveryEndS),
        BeatPart.Recoil => (1.02 * beat.DeliveryEndS, 1.45 * beat.DeliveryEndS),
        BeatPart.Open => (1.5 * beat.DeliveryEndS, 0.95 * beat.IntervalS),
        BeatPart.Rhythm => (0.9 * beat.IntervalS, beat.IntervalS),
        _ => (0, beat.IntervalS),
    };

    private static void Shade(Sheet sheet, Signature now, IReadOnlyList<BeatPart> parts, double startS, double endS, double top, Frame frame)
    {
        bool first = true;
        foreach (BeatPart part in parts)
        {
            (double from, double to) = Stretch(now, part);
            (from, to) = (Math.Max(from, startS), Math.Min(to, endS));

            // The level belongs to the whole beat: shaded beside other parts it would only hide them.
            if (to <= from || (part == BeatPart.Level && parts.Count > 1))
            {
                continue;
            }

            sheet.Stretch(from, to, Ink.Orange, first ? 0.28 : 0.12);
            // A short stretch beside another one has no room for its name.
            if (first || (!frame.IsNarrow && to - from > 2 * WideNameShare * (endS - startS)))
            {
                Named(sheet, Name(part), 0.5 * (from + to), (startS, endS), top, frame, first);
            }

            first = false;
        }
    }

    // A name near an edge of the picture ends or begins there: centred it would be cut off.
    private static void Named(Sheet sheet, string name, double at, (double StartS, double EndS) shown, double top, Frame frame, bool bold)
    {
        double half = (frame.IsNarrow ? NarrowNameShare : WideNameShare) * (shown.EndS - shown.StartS);
        (double x, Alignment alignment) = at > shown.EndS - half ? (shown.EndS, Alignment.UpperRight)
            : at < shown.StartS + half ? (shown.StartS, Alignment.UpperLeft)
            : (at, Alignment.UpperCenter);
        sheet.Note(name, x, top, alignment, Ink.Text, bold);
    }

    /// <summary>Levels to show [bar]: all of it, or only what the open phase reaches.</summary>
    private static (double Bottom, double Top) Range(Signature[] beats, double startS, double endS, bool low)
    {
        double[] shown =
        [
            .. beats.SelectMany(b => b.Typical.TimeS
                .Zip(b.Typical.PressurePa, (t, p) => (t, p, beat: b))
                .Where(s => s.t >= startS && s.t <= endS && (!low || (s.t > 1.5 * s.beat.DeliveryEndS && s.t < 0.96 * s.beat.Typical.TimeS[^1])))
                .Select(s => s.p * Bar)),
        ];
        if (shown.Length == 0)
        {
            return (0, 1);
        }

        double height = Math.Max(shown.Max() - shown.Min(), 0.01);
        return (shown.Min() - (0.1 * height), shown.Max() + (0.35 * height));
    }

    private static void Line(
        Sheet sheet, TraceCurve beat, double startS, double endS, (double, double) pixel, Color color, LinePattern pattern)
    {
        foreach (List<Coordinates> piece in Curves.Pieces(beat, startS, endS))
        {
            sheet.Line(Curves.Simplify(piece, pixel, 1), color, 2.2f, pattern);
        }
    }

    private static void Key(Sheet sheet, bool withWell, double startS, double endS, double bottom, double top, double place)
    {
        double swatch = 0.04 * (endS - startS);
        double x = startS + (place * (endS - startS));
        (string Name, Color Color, LinePattern Pattern)[] rows =
        [
            (Phrases.Say("plots.now"), Ink.Blue, LinePattern.Solid),
            .. withWell ? [(Phrases.Say("plots.when-well"), Ink.Vermilion, LinePattern.Dashed)] : Array.Empty<(string, Color, LinePattern)>(),
        ];
        for (int i = 0; i < rows.Length; i++)
        {
            double y = top - ((top - bottom) * (0.12 + (0.07 * i)));
            sheet.Line([new(x, y), new(x + swatch, y)], rows[i].Color, 2.2f, rows[i].Pattern);
            sheet.Note(rows[i].Name, x + swatch, y, Alignment.MiddleLeft, Ink.Text);
        }
    }

    /// <summary>What a part is called in a picture.</summary>
    internal static string Name(BeatPart part) => part switch
    {
        BeatPart.Closure => Phrases.Say("plots.knock"),
        BeatPart.Plateau => Phrases.Say("plots.plateau"),
        BeatPart.Fall => Phrases.Say("plots.fall"),
        BeatPart.Recoil => Phrases.Say("plots.suction"),
        BeatPart.Open => Phrases.Say("plots.valve-open"),
        BeatPart.Rhythm => Phrases.Say("plots.next-closure"),
        _ => Phrases.Say("plots.level"),
    };
}
