using System.Globalization;
using Clackbeat.Signal.Diagnosis;
using nietras.SeparatedValues;

namespace Clackbeat.DiagnosisStudy.Training;

/// <summary>
/// Trees of an earlier study, to go on from: what they know of the conditions stands, and trees grown on new rams correct it (boosting
/// with a warm start). They ask in z-scores, so the well rams that those are taken from may be new ones.
/// </summary>
internal sealed class EarlierTrees
{
    private readonly Dictionary<string, (double Constant, List<FeatureTree> Trees)> _cases;

    private EarlierTrees(Dictionary<string, (double, List<FeatureTree>)> cases) => _cases = cases;

    /// <summary>Reads a model's data files.</summary>
    /// <param name="folder">Where they are.</param>
    /// <param name="name">Name of the model.</param>
    public static EarlierTrees Read(string folder, string name)
    {
        var cases = new Dictionary<string, (double, List<FeatureTree>)>(StringComparer.Ordinal);
        using (SepReader reader = Sep.New(',').Reader().FromFile(Path.Combine(folder, $"{name}-conditions.csv")))
        {
            foreach (SepReader.Row row in reader)
            {
                cases[row["condition"].ToString()] = (double.Parse(row["constant"].Span, CultureInfo.InvariantCulture), []);
            }
        }

        using SepReader trees = Sep.New(',').Reader().FromFile(Path.Combine(folder, $"{name}-trees.csv"));
        foreach (SepReader.Row row in trees)
        {
            cases[row["condition"].ToString()].Item2.Add(FeatureTree.Read(row["tree"].ToString()));
        }

        return new EarlierTrees(cases);
    }

    /// <summary>The constant and the trees of a condition; null of one that joined the study later.</summary>
    public (double Constant, List<FeatureTree> Trees)? Of(string condition) => _cases.TryGetValue(condition, out (double, List<FeatureTree>) earlier) ? earlier : null;
}
