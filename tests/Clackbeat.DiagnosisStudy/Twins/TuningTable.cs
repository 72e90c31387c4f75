using System.Globalization;
using Clackbeat.VirtualRam.Field;

namespace Clackbeat.DiagnosisStudy.Twins;

/// <summary>Tunes drawn rams with and without a twin and writes how many trials each needed, a row a search.</summary>
internal static class TuningTable
{
    private const string Header = "ram,material,start,twin,trials,needed,share,tried";

    // A search that never came near counts as one trial more than any makes.
    private const int Never = 9;

    /// <summary>Tunes the first rams of a set that beat where they stand.</summary>
    public static void Write(string folder, string table, TwinDomain domain, FieldSet set, int first, int count, int threads)
    {
        Directory.CreateDirectory(folder);
        FieldRam[] rams = [.. FieldRam.Of(set, first + count, TwinDomains.Of(domain)).Skip(first)];
        (TuningCase Case, TuningRun Without, TuningRun With)?[] runs = new (TuningCase, TuningRun, TuningRun)?[rams.Length];
        Parallel.For(0, rams.Length, new ParallelOptions { MaxDegreeOfParallelism = threads }, i =>
        {
            var drawn = new TuningCase(TwinCase.Of(domain, rams[i]), folder);
            runs[i] = drawn.Beats ? (drawn, drawn.Run(withTwin: false), drawn.Run(withTwin: true)) : null;
        });
        (TuningCase Case, TuningRun Without, TuningRun With)[] kept = [.. runs.OfType<(TuningCase Case, TuningRun Without, TuningRun With)>()];
        File.WriteAllLines(table, kept.SelectMany(r => new[] { Row(r.Case, "without", r.Without), Row(r.Case, r.Case.HasTwin ? "with" : "none", r.With) }).Prepend(Header));
        Console.WriteLine(FormattableString.Invariant($"rams {kept.Length}, of them with a twin {kept.Count(r => r.Case.HasTwin)}"));
        Console.WriteLine("| search | trials until within 3 %, median | nine of ten | never | trials made, median | nine of ten | short of the best at the end, median | nine of ten |");
        Console.WriteLine("| --- | --- | --- | --- | --- | --- | --- | --- |");
        Console.WriteLine(Summary("without its curve", [.. kept.Select(r => r.Without)]));
        Console.WriteLine(Summary("from its curve", [.. kept.Select(r => r.With)]));
    }

    private static string Row(TuningCase drawn, string twin, TuningRun run) => string.Create(
        CultureInfo.InvariantCulture,
        $"{drawn.Drawn.Ram.Number},{drawn.Drawn.Ram.Site.DrivePipe.Material},{drawn.Start:0},{twin},{run.Settings.Count},{run.Needed},{run.Shares[^1]:0.000},{string.Join(' ', run.Settings)}");

    private static string Summary(string name, TuningRun[] runs)
    {
        double[] needed = [.. runs.Select(r => (double)(r.Needed ?? Never)).Order()];
        double[] made = [.. runs.Select(r => (double)r.Settings.Count).Order()];
        double[] missed = [.. runs.Select(r => 100 * (1 - r.Shares[^1])).Order()];
        return string.Create(
            CultureInfo.InvariantCulture,
            $"| {name} | {At(needed, 0.5):0} | {At(needed, 0.9):0} | {runs.Count(r => r.Needed is null)} | {At(made, 0.5):0} | {At(made, 0.9):0} | {At(missed, 0.5):0.0} % | {At(missed, 0.9):0.0} % |");
    }

    private static double At(double[] sorted, double share) => sorted[Math.Max(0, (int)Math.Ceiling(share * sorted.Length) - 1)];
}
