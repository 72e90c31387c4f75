using System.Globalization;
using System.Text;

namespace Clackbeat.DiagnosisStudy.Twins;

/// <summary>The table of the twin's page, from the rows of <see cref="TwinTable"/>.</summary>
internal static class TwinSummary
{
    private static readonly string[] Figures = ["rate", "delivered", "waste"];

    /// <summary>Errors and how often ± held, over all changes and each alone.</summary>
    /// <param name="lines">The table, its header first.</param>
    public static string Of(IReadOnlyList<string> lines)
    {
        string[] names = lines[0].Split(',');
        List<Dictionary<string, string>> rows =
            [.. lines.Skip(1).Select(l => names.Zip(l.Split(',')).ToDictionary(p => p.First, p => p.Second))];
        var text = new StringBuilder();
        text.AppendLine(CultureInfo.InvariantCulture, $"rams {rows.Select(r => r["ram"]).Distinct().Count()}, questions {rows.Count}, no twin {rows.Count(r => r["misfit"].Length == 0)}");
        double[] fits = [.. rows.Where(r => r["fit_s"].Length > 0).Select(r => Number(r, "fit_s")!.Value).Order()];
        double[] changes = [.. rows.Select(r => Number(r, "change_s")!.Value).Order()];
        text.AppendLine(CultureInfo.InvariantCulture, $"fit {At(fits, 0.5):0.0} s, at most {fits[^1]:0.0}; change {At(changes, 0.5):0.00} s, nine of ten {At(changes, 0.9):0.00}, at most {changes[^1]:0.00}");
        int stops = rows.Count(r => Number(r, "rate") == 0);
        text.AppendLine(CultureInfo.InvariantCulture, $"stopped in truth {stops}, told below a half {rows.Count(r => Number(r, "rate") == 0 && Number(r, "will_beat") < 0.5)}; beats but told below a half {rows.Count(r => Number(r, "rate") > 0 && Number(r, "will_beat") < 0.5)}; beats but no figures {rows.Count(r => Number(r, "rate") > 0 && Number(r, "rate_told") is null)}");
        text.AppendLine("| figure | change | n | median | nine of ten | largest | ratio alone | in ± | median ± |");
        text.AppendLine("| --- | --- | --- | --- | --- | --- | --- | --- | --- |");
        foreach (string figure in Figures)
        {
            foreach (string change in rows.Select(r => r["change"]).Distinct().Prepend("all"))
            {
                Line(text, figure, change, [.. rows.Where(r => (change == "all" || r["change"] == change) && Number(r, figure) > 0 && Number(r, figure + "_told") is not null)]);
            }
        }

        return text.ToString();
    }

    private static void Line(StringBuilder text, string figure, string change, List<Dictionary<string, string>> rows)
    {
        if (rows.Count == 0)
        {
            return;
        }

        double[] errors = [.. rows.Select(r => Math.Abs((Number(r, figure + "_told")!.Value / Number(r, figure)!.Value) - 1)).Order()];
        string ratio = "";
        if (figure != "rate")
        {
            double[] ratios = [.. rows.Select(r => Math.Abs((Number(r, figure + "_told")! / Number(r, figure + "0_told")! / (Number(r, figure)! / Number(r, figure + "0")!)).Value - 1)).Order()];
            ratio = Share(At(ratios, 0.5)) + " / " + Share(At(ratios, 0.9));
        }

        int held = rows.Count(r => Math.Abs(Number(r, figure + "_told")!.Value - Number(r, figure)!.Value) <= Number(r, figure + "_u"));
        double[] widths = [.. rows.Select(r => Number(r, figure + "_u")!.Value / Number(r, figure + "_told")!.Value).Order()];
        text.AppendLine(CultureInfo.InvariantCulture, $"| {figure} | {change} | {rows.Count} | {Share(At(errors, 0.5))} | {Share(At(errors, 0.9))} | {Share(errors[^1])} | {ratio} | {100.0 * held / rows.Count:0} % | {Share(At(widths, 0.5))} |");
    }

    private static string Share(double value) => (100 * value).ToString("0.0", CultureInfo.InvariantCulture) + " %";

    private static double At(double[] sorted, double share) => sorted[Math.Min(sorted.Length - 1, (int)Math.Ceiling(share * sorted.Length) - 1 is var i and >= 0 ? i : 0)];

    private static double? Number(Dictionary<string, string> row, string name) =>
        double.TryParse(row[name], CultureInfo.InvariantCulture, out double value) ? value : null;
}
