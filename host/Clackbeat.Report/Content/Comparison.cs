using Clackbeat.Report.Wording;
using Clackbeat.Signal.Figures;
using Clackbeat.Words;

namespace Clackbeat.Report.Content;

/// <summary>Says how a figure has moved since the baseline, and whether more than its margins explain.</summary>
internal static class Comparison
{
    /// <summary>The change of a figure that carries a margin.</summary>
    public static Rich Of(Kind kind, Figure? now, Figure? before)
    {
        if (now is not { } n || before is not { } b || !double.IsFinite(n.Value + n.U + b.Value + b.U))
        {
            return ReportWords.NotGiven;
        }

        // The margins are independent, so they add by their squares: JCGM 100:2008 §5.1.2.
        double margin = Math.Sqrt((n.U * n.U) + (b.U * b.U));
        return Math.Abs(n.Value - b.Value) <= margin ? Phrases.Say("report.no-clear-change") : Step(kind, n.Value, b.Value);
    }

    /// <summary>The change of a plain reading.</summary>
    public static Rich Of(Kind kind, double? now, double? before) =>
        now is { } n && before is { } b && double.IsFinite(n + b) ? Step(kind, n, b) : ReportWords.NotGiven;

    private static Rich Step(Kind kind, double now, double before)
    {
        double change = now - before;
        if (ReferenceEquals(kind, Kind.Share))
        {
            return Phrases.Say("report.points", ("sign", Sign(change)), ("change", Digits.Fixed(Math.Abs(change) * 100, 1)));
        }

        // A percentage of something that may be near zero or negative says nothing.
        if (before <= 0 || now <= 0)
        {
            return Show.Of(kind, change, 2) is { } step ? Signed(step, change) : ReportWords.NotGiven;
        }

        double percent = change / before * 100;
        return Math.Abs(percent) < 0.05 ? Phrases.Say("report.same") : $"{Sign(percent)}{Digits.Significant(Math.Abs(percent), Math.Abs(percent) < 1 ? 1 : 2)}\u00A0%";
    }

    private static Rich Signed(Measure step, double change) => change > 0 ? Rich.Of($"+{step}") : step;

    private static string Sign(double change) => change < 0 ? "\u2212" : "+";
}
