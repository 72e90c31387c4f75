using Clackbeat.Report.Wording;
using ScottPlot;

namespace Clackbeat.Report.Plots;

/// <summary>A plot that can be drawn at several sizes, with the words that stand in for it and beside it.</summary>
/// <param name="Id">Short name, unique in the report.</param>
/// <param name="Title">What it shows.</param>
/// <param name="Alt">What a reader who can't see it should learn from it.</param>
/// <param name="Caption">How to read it.</param>
/// <param name="Make">Draws it for a frame.</param>
internal sealed record Drawing(string Id, string Title, string Alt, Rich Caption, Func<Frame, Plot> Make)
{
    /// <summary>Height as a share of the usual height.</summary>
    public double Height { get; init; } = 1;

    /// <summary>The same on paper.</summary>
    public double PaperHeight { get => field > 0 ? field : Height; init; }

    /// <summary>The frame for one use.</summary>
    public Frame In(Frame frame) => frame with { Height = (int)(frame.Height * (frame == Frame.Paper ? PaperHeight : Height)) };
}

/// <summary>The size a plot is drawn at [px], text at 14 px whatever the size.</summary>
internal readonly record struct Frame(int Width, int Height)
{
    /// <summary>A desk-wide page.</summary>
    public static readonly Frame Wide = new(960, 430);

    /// <summary>A phone held upright.</summary>
    public static readonly Frame Narrow = new(430, 400);

    /// <summary>The text width of an A4 page, set at about two thirds.</summary>
    public static readonly Frame Paper = new(760, 340);

    /// <summary>Too narrow for long labels.</summary>
    public bool IsNarrow => Width < 600;
}
