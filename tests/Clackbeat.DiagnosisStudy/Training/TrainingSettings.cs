namespace Clackbeat.DiagnosisStudy.Training;

/// <summary>How a model is trained.</summary>
/// <param name="WellCounts">
/// How much a well record counts against one of a fault: most recordings are of well rams, while of the study's only one in four is, and a
/// false alarm costs a walk to the ram. Chosen so that, of well rams not trained on, about so many are called ill as the docs say.
/// </param>
/// <param name="Trees">How trees are grown.</param>
internal sealed record TrainingSettings(double WellCounts, TreeSettings Trees)
{
    /// <summary>For changes against a baseline. Chosen by cross-validation over the rams to train on (command: choose).</summary>
    public static TrainingSettings AgainstBaseline { get; } = new(16, new(Trees: 160, Depth: 3, Rate: 0.07, LeastRows: 12, Ridge: 4, RowShare: 0.7, ColumnShare: 0.5));

    /// <summary>By the site file alone what a feature means depends on more of the others: one question more helps there.</summary>
    public static TrainingSettings AgainstSite { get; } = new(12, new(Trees: 200, Depth: 4, Rate: 0.06, LeastRows: 12, Ridge: 4, RowShare: 0.7, ColumnShare: 0.5));

    /// <summary>The settings of one of the two.</summary>
    public static TrainingSettings Of(bool changes) => changes ? AgainstBaseline : AgainstSite;

    /// <summary>How much a row counts.</summary>
    public double WeightOf(StudyRow row) => row.Conditions.Count > 0 ? 1 : WellCounts;
}
