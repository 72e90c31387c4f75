using System.Globalization;
using Clackbeat.Sensing.Calibrating;
using Clackbeat.Sensing.Conversion;
using Clackbeat.Site;
using Clackbeat.Site.Calibrations;

namespace Clackbeat.Commands.Capture;

/// <summary>
/// Points of a calibration gathered over a morning, one a line: reference, counts and, where there are, the supply's
/// counts, the uncertainty of the mean, the scatter and the number of samples. A header line may name other columns, their
/// order and the reference's unit. A line may be taken out by a # before it.
/// </summary>
internal static class PointsFile
{
    private const string Header = "# reference,counts,supply_counts,counts_uncertainty,scatter,samples";

    /// <summary>Reads the points.</summary>
    public static IEnumerable<CalibrationPoint> Read(string file, SignalPath path, ReferenceMeans means)
    {
        PointsLayout? layout = null;
        int number = 0;
        foreach (string line in File.ReadLines(file))
        {
            number++;
            if (string.IsNullOrWhiteSpace(line))
            {
                continue;
            }

            string where = $"{file}, line {number}";
            // The header is the first line that isn't a mere remark, with or without a # before it.
            if (layout is null && PointsLayout.TryRead(line, where) is { } named)
            {
                layout = named;
                continue;
            }

            if (line.TrimStart().StartsWith('#'))
            {
                continue;
            }

            layout ??= PointsLayout.Usual(line);
            yield return Point(layout.Cells(line, where), where, path, means);
        }
    }

    /// <summary>Adds a point at the end, in the order of the file's own header.</summary>
    public static void Append(string file, CalibrationPoint point)
    {
        bool isNew = !File.Exists(file);
        PointsLayout layout = isNew ? PointsLayout.Usual("") : File.ReadLines(file)
            .Select(line => PointsLayout.TryRead(line, file)).FirstOrDefault(l => l is not null)
            ?? PointsLayout.Usual(File.ReadLines(file).FirstOrDefault(l => !l.TrimStart().StartsWith('#') && l.Length > 0) ?? "");
        // A file that a person typed may lack the last line's end.
        string before = isNew || new FileInfo(file).Length == 0 || File.ReadAllText(file).EndsWith('\n') ? "" : "\n";
        using StreamWriter writer = new(file, append: true);
        if (isNew)
        {
            writer.WriteLine(Header);
        }

        writer.WriteLine(before + layout.Line(new Dictionary<PointColumn, string>
        {
            [PointColumn.Reference] = point.Text,
            [PointColumn.Counts] = Text(point.Counts, "0.###"),
            [PointColumn.SupplyCounts] = Text(point.SupplyCounts, "0.###"),
            [PointColumn.CountsUncertainty] = Text(point.CountsUncertainty, "0.###"),
            [PointColumn.Scatter] = Text(point.CountsScatter, "0.##"),
            [PointColumn.Samples] = Text(point.Samples, "0"),
        }));
    }

    /// <summary>Counts as a person types them.</summary>
    public static double Counts(string? text, string where, string reference, SignalPath path)
    {
        if (!IsNumber(text))
        {
            throw InputException.Of("calibrate.no-counts", ("where", where), ("reference", reference), ("text", text ?? ""));
        }

        double counts = double.Parse(text!, CultureInfo.InvariantCulture);
        return counts >= 0 && counts <= path.Converter.MaxCounts
            ? counts
            : throw InputException.Of("calibrate.counts-range", ("where", where), ("text", text ?? ""), ("most", path.Converter.MaxCounts));
    }

    /// <summary>Whether a word is a bare number.</summary>
    public static bool IsNumber(string? text) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double value) && double.IsFinite(value);

    private static CalibrationPoint Point(
        IReadOnlyDictionary<PointColumn, string> cells, string where, SignalPath path, ReferenceMeans means)
    {
        string reference = cells[PointColumn.Reference];
        CalibrationPoint bare;
        try
        {
            bare = ReferenceText.Point(reference, p => p, path, means);
        }
        catch (InputException wrong)
        {
            throw InputException.Of(wrong, "option.wrong", ("option", where), ("why", wrong.What));
        }

        return bare with
        {
            Counts = Counts(cells[PointColumn.Counts], where, reference, path),
            SupplyCounts = cells.TryGetValue(PointColumn.SupplyCounts, out string? supply) ? Counts(supply, where, reference, path) : null,
            CountsUncertainty = Optional(cells, PointColumn.CountsUncertainty, where) ?? bare.CountsUncertainty,
            CountsScatter = Optional(cells, PointColumn.Scatter, where),
            Samples = (int?)Optional(cells, PointColumn.Samples, where),
        };
    }

    private static double? Optional(IReadOnlyDictionary<PointColumn, string> cells, PointColumn column, string where) =>
        !cells.TryGetValue(column, out string? text) ? null
        : IsNumber(text) && double.Parse(text, CultureInfo.InvariantCulture) is >= 0 and < 1e9 and var value
            ? value
            : throw InputException.Of("calibrate.no-number", ("where", where), ("text", text ?? ""));

    private static string Text(double? value, string format) => value?.ToString(format, CultureInfo.InvariantCulture) ?? "";
}
