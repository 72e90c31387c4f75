namespace Clackbeat.Recording.Export;

/// <summary>
/// Marks where samples are missing: a step of more than two and a half usual ones, the rule that analyses use. The
/// usual step is the median of the first ones, which wait until it is known.
/// </summary>
public sealed class GapFinder(IExportFile file)
{
    private const int StepsToLearn = 1024;
    private const double GapInSteps = 2.5;

    private readonly List<ExportRow> _waiting = [];
    private double? _usualS;
    private double _lastS = double.NaN;

    /// <summary>Stretches without samples.</summary>
    public int Gaps { get; private set; }

    /// <summary>Rows written.</summary>
    public long Rows { get; private set; }

    /// <summary>Takes the next sample.</summary>
    public void Add(ExportRow row)
    {
        if (_usualS is null)
        {
            _waiting.Add(row);
            if (_waiting.Count > StepsToLearn)
            {
                Learn();
            }

            return;
        }

        Write(row);
    }

    /// <summary>Writes what is left.</summary>
    public void Finish()
    {
        Learn();
        file.Finish();
    }

    private void Learn()
    {
        if (_usualS is not null)
        {
            return;
        }

        double[] steps = [.. _waiting.Zip(_waiting.Skip(1), (a, b) => b.TimeS - a.TimeS)];
        Array.Sort(steps);
        _usualS = steps.Length > 0 ? steps[steps.Length / 2] : double.PositiveInfinity;
        _waiting.ForEach(Write);
        _waiting.Clear();
    }

    private void Write(ExportRow row)
    {
        double stepS = row.TimeS - _lastS;
        bool gap = stepS > GapInSteps * _usualS;
        Gaps += gap ? 1 : 0;
        Rows++;
        file.Add(row, gap ? stepS : null);
        _lastS = row.TimeS;
    }
}
