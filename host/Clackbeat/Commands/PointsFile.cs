using System.Globalization;
using Clackbeat.Sensing.Calibrating;
using Clackbeat.Sensing.Conversion;
using Clackbeat.Site;
using Clackbeat.Site.Calibrations;

namespace Clackbeat.Commands;

/// <summary>
/// Points of a calibration gathered over a morning, one a line: reference, counts and, where there are, the supply's
/// counts, the uncertainty of the mean, the scatter and the number of samples. A line may be taken out by a # before it.
/// </summary>
internal static class PointsFile
{
    private const string Header = "# reference,counts,supply_counts,counts_uncertainty,scatter,samples";
    private const int Fields = 6;

    /// <summary>Reads the points.</summary>
    public static IEnumerable<CalibrationPoint> Read(string file, SignalPath path, ReferenceMeans means)
    {
        int number = 0;
        foreach (string line in File.ReadLines(file))
        {
            number++;
            if (string.IsNullOrWhiteSpace(line) || line.TrimStart().StartsWith('#'))
            {
                continue;
            }

            string where = $"{file}, line {number}";
            string[] cells = [.. line.Split(',').Select(c => c.Trim().Trim('"'))];
            if (cells.Length is < 2 or > Fields)
            {
                throw new InputException($"{where}: write reference,counts or reference,counts,supply counts, such as 2 m,183,2310");
            }

            CalibrationPoint point;
            try
            {
                point = ReferenceText.Point(cells[0], p => With(p, cells, where, path), path, means);
            }
            catch (InputException wrong) when (!wrong.Message.StartsWith(file, StringComparison.Ordinal))
            {
                throw new InputException($"{where}: {wrong.Message}", wrong);
            }

            yield return point;
        }
    }

    /// <summary>Adds a point at the end.</summary>
    public static void Append(string file, CalibrationPoint point)
    {
        bool isNew = !File.Exists(file);
        using StreamWriter writer = new(file, append: true);
        if (isNew)
        {
            writer.WriteLine(Header);
        }

        writer.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"{point.Text},{point.Counts:0.###},{point.SupplyCounts:0.###},{point.CountsUncertainty:0.###},{point.CountsScatter:0.##},{point.Samples}"));
    }

    /// <summary>Counts as a person types them.</summary>
    public static double Counts(string? text, string where, string reference, SignalPath path)
    {
        if (!IsNumber(text))
        {
            throw new InputException($"{where}: \"{reference}\" wants the converter's counts behind it, such as \"{reference}\" 183; not \"{text}\".");
        }

        double counts = double.Parse(text!, CultureInfo.InvariantCulture);
        return counts >= 0 && counts <= path.Converter.MaxCounts
            ? counts
            : throw new InputException($"{where}: {text} counts can't be; the converter gives 0 to {path.Converter.MaxCounts}.");
    }

    /// <summary>Whether a word is a bare number.</summary>
    public static bool IsNumber(string? text) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double value) && double.IsFinite(value);

    private static CalibrationPoint With(CalibrationPoint point, string[] cells, string where, SignalPath path) => point with
    {
        Counts = Counts(cells[1], where, cells[0], path),
        SupplyCounts = Cell(cells, 2) is { } supply ? Counts(supply, where, cells[0], path) : null,
        CountsUncertainty = Optional(cells, 3, where) ?? point.CountsUncertainty,
        CountsScatter = Optional(cells, 4, where),
        Samples = (int?)Optional(cells, 5, where),
    };

    private static string? Cell(string[] cells, int index) => index < cells.Length && cells[index].Length > 0 ? cells[index] : null;

    private static double? Optional(string[] cells, int index, string where) => Cell(cells, index) is not { } text
        ? null
        : IsNumber(text) && double.Parse(text, CultureInfo.InvariantCulture) is >= 0 and < 1e9 and var value
            ? value
            : throw new InputException($"{where}: \"{text}\" is no number that can stand there.");
}
