using System.Globalization;

namespace Clackbeat.Signal.Diagnosis;

/// <summary>A question or an answer of a tree. The branches of question i stand at 2i+1 (not further) and 2i+2 (further).</summary>
/// <param name="Column">Whose z-score is asked for: twice the feature's number, one more for its fall; −1 for an answer.</param>
/// <param name="Threshold">The question: does the feature lie further off than so many standard deviations?</param>
/// <param name="Value">What the tree would add to the logarithm of the odds if it stopped here.</param>
internal readonly record struct TreeNode(int Column, double Threshold, double Value);

/// <summary>
/// A few questions about features, one after the other, and what the answers add to the case for a condition. What each
/// answer changed is attributed to its feature, so that the sum over all trees falls into parts that belong to features (path
/// attribution after Saabas, in S. M. Lundberg et al., Nat. Mach. Intell. 2, 2020, doi:10.1038/s42256-019-0138-9).
/// </summary>
internal sealed class FeatureTree(TreeNode[] nodes)
{
    private static readonly Dictionary<string, Feature>.AlternateLookup<ReadOnlySpan<char>> Features =
        Enum.GetValues<Feature>().ToDictionary(f => f.ToString(), StringComparer.Ordinal).GetAlternateLookup<ReadOnlySpan<char>>();

    /// <summary>The nodes.</summary>
    public IReadOnlyList<TreeNode> Nodes => nodes;

    /// <summary>What the tree adds.</summary>
    /// <param name="columns">How far each feature lies above and below a well ram's, in standard deviations; see <see cref="Columns"/>.</param>
    public double Answer(double[] columns)
    {
        int at = 0;
        while (nodes[at].Column >= 0)
        {
            at = Next(at, columns);
        }

        return nodes[at].Value;
    }

    /// <summary>Attributes what each answer on the way changed to the side of the feature it asked for.</summary>
    /// <param name="columns">How far each feature lies above and below a well ram's, in standard deviations.</param>
    /// <param name="attributions">One for each column; added to.</param>
    public void AddAttributions(double[] columns, double[] attributions)
    {
        int at = 0;
        while (nodes[at].Column >= 0)
        {
            int next = Next(at, columns);
            attributions[nodes[at].Column] += nodes[next].Value - nodes[at].Value;
            at = next;
        }
    }

    /// <summary>The column of a feature's rise, or of its fall.</summary>
    public static int Column(Feature feature, bool rise) => (2 * (int)feature) + (rise ? 0 : 1);

    /// <summary>Number of columns.</summary>
    public static int ColumnCount { get; } = 2 * Enum.GetValues<Feature>().Length;

    /// <summary>Rise and fall of each feature side by side; 0 for a feature that is missing.</summary>
    /// <param name="zScores">z-score of each feature.</param>
    public static double[] Columns(IReadOnlyDictionary<Feature, double> zScores)
    {
        double[] columns = new double[ColumnCount];
        foreach ((Feature feature, double zScore) in zScores)
        {
            columns[Column(feature, zScore > 0)] = Math.Abs(zScore);
        }

        return columns;
    }

    /// <summary>The tree as text: questions as "(+Feature threshold value no yes)" or "(-Feature …)", answers as values.</summary>
    public string Write() => Write(0);

    /// <summary>Reads what <see cref="Write()"/> wrote.</summary>
    public static FeatureTree Read(ReadOnlySpan<char> text)
    {
        var nodes = new List<TreeNode>();
        Read(ref text, 0, nodes);
        return new FeatureTree([.. nodes]);
    }

    private int Next(int at, double[] columns) => (2 * at) + (columns[nodes[at].Column] > nodes[at].Threshold ? 2 : 1);

    private string Write(int at)
    {
        TreeNode node = nodes[at];
        return node.Column < 0
            ? Text(node.Value)
            : $"({(node.Column % 2 == 0 ? '+' : '-')}{(Feature)(node.Column / 2)} {node.Threshold.ToString("G3", CultureInfo.InvariantCulture)} {Text(node.Value)} {Write((2 * at) + 1)} {Write((2 * at) + 2)})";
    }

    // Hundreds of kilobytes are read before the first judgement, so the text is walked once and nothing is copied out of it.
    private static void Read(ref ReadOnlySpan<char> text, int at, List<TreeNode> nodes)
    {
        while (nodes.Count <= at)
        {
            nodes.Add(default);
        }

        if (text[0] != '(')
        {
            nodes[at] = new TreeNode(-1, 0, Number(Word(ref text)));
            return;
        }

        bool rise = text[1] == '+';
        text = text[2..];
        int column = Column(Features[Word(ref text)], rise);
        (double threshold, double value) = (Number(Word(ref text)), Number(Word(ref text)));
        nodes[at] = new TreeNode(column, threshold, value);
        Read(ref text, (2 * at) + 1, nodes);
        Read(ref text, (2 * at) + 2, nodes);
    }

    /// <summary>Takes the next word off the text, with the spaces and closing brackets behind it.</summary>
    private static ReadOnlySpan<char> Word(ref ReadOnlySpan<char> text)
    {
        int end = text.IndexOfAny(' ', ')');
        ReadOnlySpan<char> word = end < 0 ? text : text[..end];
        text = text[word.Length..].TrimStart(" )");
        return word;
    }

    private static string Text(double value) => value.ToString("0.####", CultureInfo.InvariantCulture);

    private static double Number(ReadOnlySpan<char> text) => double.Parse(text, CultureInfo.InvariantCulture);
}
