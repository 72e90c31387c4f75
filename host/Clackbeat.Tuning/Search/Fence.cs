using Clackbeat.Tuning.Trials;

namespace Clackbeat.Tuning.Search;

/// <summary>Why a setting may not be tried.</summary>
public enum BarredBy
{
    /// <summary>It may.</summary>
    None,

    /// <summary>That the pipe bears its peak is not shown: the curve through the peaks doesn't promise it, or a trial on the way went over.</summary>
    Pipe,

    /// <summary>A setting on the way to it stopped the ram.</summary>
    Stopped,
}

/// <summary>Settings that may not be tried, from one to another, in the knob's unit.</summary>
/// <param name="From">Lower end.</param>
/// <param name="To">Upper end.</param>
/// <param name="Why">Why not.</param>
public readonly record struct BarredRange(double From, double To, BarredBy Why);

/// <summary>
/// Which settings may be tried: those whose peak, its ± added, the curve through the peaks puts under the allowable
/// pressure with nineteen chances in twenty, and none beyond a setting that stopped the ram or went over the rating. Where
/// every trial went over, nothing is fenced off: the way back must stay open.
/// </summary>
internal sealed class Fence
{
    private readonly TrialCurves _curves;
    private readonly bool _isOpen;
    private readonly double _allowedPa;
    private readonly (double Share, BarredBy Why) _below;
    private readonly (double Share, BarredBy Why) _above;

    public Fence(TuningSession session, Trial[] working, Trial? best, TrialCurves curves)
    {
        Knob knob = session.Knob;
        _curves = curves;
        Safe = [.. working.Where(t => t.WithinRating).Select(t => knob.Share(t.Setting))];
        _isOpen = Safe.Count == 0;
        double anchor = best is not null ? knob.Share(best.Setting) : _isOpen ? 0 : Safe[0];
        (double Share, BarredBy Why)[] bad = _isOpen
            ? []
            : [.. session.Trials.Where(t => !t.Works || !t.WithinRating).Select(t => (knob.Share(t.Setting), t.Works ? BarredBy.Pipe : BarredBy.Stopped))];
        _below = bad.Where(b => b.Share < anchor).DefaultIfEmpty((Share: double.NegativeInfinity, Why: BarredBy.None)).MaxBy(b => b.Share);
        _above = bad.Where(b => b.Share > anchor).DefaultIfEmpty((Share: double.PositiveInfinity, Why: BarredBy.None)).MinBy(b => b.Share);
        _allowedPa = working.Select(t => t.AllowablePa ?? double.PositiveInfinity).Min();
    }

    /// <summary>Settings of working trials that the pipe bears, as shares of the range.</summary>
    public IReadOnlyList<double> Safe { get; }

    /// <summary>Whether a setting may be tried, and why not.</summary>
    public BarredBy At(double share) =>
        share <= _below.Share ? _below.Why
        : share >= _above.Share ? _above.Why
        : _isOpen || _curves.StaysWithin(share, _allowedPa) ? BarredBy.None : BarredBy.Pipe;
}
