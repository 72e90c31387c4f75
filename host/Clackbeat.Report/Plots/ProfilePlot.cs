using Clackbeat.Planning.Plans;
using Clackbeat.Report.Wording;
using Clackbeat.Words;
using ScottPlot;
using ScottPlot.Plottables;

namespace Clackbeat.Report.Plots;

/// <summary>Spring, ram and outlet with their pipes, to scale: the two axes are alike unless the main is too long for that.</summary>
internal static class ProfilePlot
{
    // A main that runs further than this times its rise would press the heights flat.
    private const double LongestReach = 6;

    /// <summary>How many times the heights are drawn larger than the lengths; 1 where all is to one scale.</summary>
    public static double Exaggeration(RamChoice choice)
    {
        (double drive, double main) = Runs(choice);
        return Math.Max(1, Math.Ceiling((drive + main) / (LongestReach * choice.Wish.LiftM)));
    }

    public static Plot Draw(RamChoice choice, Frame frame)
    {
        (double drive, double main) = Runs(choice);
        (double fall, double lift) = (choice.Wish.SupplyHeadM, choice.Wish.LiftM);
        var sheet = new Sheet(frame);
        double scale = Exaggeration(choice);
        // The plot's inside, less its labels, in metres across and up.
        (double inside, double tall) = (Math.Max(1, frame.Width - 90.0), Math.Max(1, frame.Height - 60.0));
        double across = Math.Max(1.35 * (drive + main), 1.75 * lift * scale * inside / tall);
        double up = across / scale * tall / inside;
        double left = (main - drive - across) / 2;

        // Room below for two lines of words: the ram, and the drive pipe under it.
        double below = Math.Clamp(46 / tall, 0.2, 0.45);
        sheet.Plot.Axes.SetLimits(left, left + across, -below * up, (1 - below) * up);
        sheet.Plot.Axes.Left.TickGenerator = Ticks.For(-below * up, (1 - below) * up, 5);
        sheet.Plot.Axes.Bottom.TickGenerator = Ticks.For(left, left + across, frame.IsNarrow ? 4 : 8);
        sheet.Plot.Axes.Left.Label.Text = Phrases.Say("plan.profile-up");
        sheet.Plot.Axes.Bottom.Label.Text = Phrases.Say("plan.profile-along");
        sheet.Line([new(-drive, fall), new(0, 0)], Ink.Vermilion, 5);
        sheet.Line([new(0, 0), new(main, lift)], Ink.Blue, 3);
        sheet.Line([new(left, fall), new(-drive, fall)], Ink.Sky, 4);
        sheet.Plot.Add.Marker(0, 0, MarkerShape.FilledSquare, 14, Ink.Text);
        sheet.Plot.Add.Marker(main, lift, MarkerShape.FilledSquare, 12, Ink.Blue);
        Note(sheet, Phrases.Say("plan.profile-spring", ("height", Metres(fall))), left, fall, Alignment.LowerLeft, 2, -8);
        Note(sheet, Phrases.Say("plan.profile-ram", ("rams", choice.Count)), 0, 0, Alignment.UpperCenter, 0, 10);
        Note(sheet, Phrases.Say("plan.profile-outlet", ("height", Metres(lift))), main, lift, Alignment.LowerRight, 0, -10);
        Note(sheet, Phrases.Say("plan.profile-drive", ("length", Metres(choice.Length.LengthM))), left, 0, Alignment.UpperLeft, 2, 26);
        Note(sheet, Phrases.Say("plan.profile-main", ("length", Metres(choice.Main.LengthM))), left + across, 0, Alignment.UpperRight, -2, 8);
        return sheet.Plot;
    }

    private static (double Drive, double Main) Runs(RamChoice choice) =>
        (Run(choice.Length.LengthM, choice.Wish.SupplyHeadM), Run(choice.Main.LengthM, choice.Wish.LiftM));

    private static double Run(double along, double rise) => Math.Sqrt(Math.Max(along * along - rise * rise, 1e-4 * along * along));

    private static void Note(Sheet sheet, string words, double x, double y, Alignment alignment, float dx, float dy)
    {
        Text note = sheet.Note(words, x, y, alignment, Ink.Text);
        (note.OffsetX, note.OffsetY) = (dx, dy);
    }

    private static string Metres(double metres) => Show.Of(Kind.Length, metres)!.Value.Trimmed().ToString();
}
