using System.Globalization;

namespace Clackbeat.Signal.Diagnosis;

/// <summary>A question or an answer of a tree. The branches of question i stand at 2i+1 (not further) and 2i+2 (further).</summary>
/// <param name="Column">Whose distance is asked for: twice the sign's number, one more for its fall; −1 for an answer.</param>
/// <param name="Threshold">The question: does the sign lie further off than so many scatters?</param>
/// <param name="Value">What the tree would add to the logarithm of the odds if it stopped here.</param>
internal readonly record struct TreeNode(int Column, double Threshold, double Value);

/// <summary>
/// A few questions about signs, one after the other, and what the answers add to the case for a condition. Each question's
/// sign is credited with what its answer changed, so that the sum over all trees falls into parts that belong to signs.
/// </summary>
internal sealed class SignTree(TreeNode[] nodes)
{
    /// <summary>The nodes.</summary>
    public IReadOnlyList<TreeNode> Nodes => nodes;

    /// <summary>What the tree adds.</summary>
    /// <param name="columns">How far each sign lies above and below what is usual; see <see cref="Columns"/>.</param>
    public double Answer(double[] columns)
    {
        int at = 0;
        while (nodes[at].Column >= 0)
        {
            at = Next(at, columns);
        }

        return nodes[at].Value;
    }

    /// <summary>Credits each side of a sign on the way with what its answer changed.</summary>
    /// <param name="columns">How far each sign lies above and below what is usual.</param>
    /// <param name="credits">One for each column; added to.</param>
    public void Credit(double[] columns, double[] credits)
    {
        int at = 0;
        while (nodes[at].Column >= 0)
        {
            int next = Next(at, columns);
            credits[nodes[at].Column] += nodes[next].Value - nodes[at].Value;
            at = next;
        }
    }

    /// <summary>The column of a sign's rise, or of its fall.</summary>
    public static int Column(Sign sign, bool rise) => (2 * (int)sign) + (rise ? 0 : 1);

    /// <summary>Number of columns.</summary>
    public static int ColumnCount { get; } = 2 * Enum.GetValues<Sign>().Length;

    /// <summary>Rise and fall of each sign side by side; 0 for a sign that is missing.</summary>
    /// <param name="distances">Distance from what is usual, in usual scatters.</param>
    public static double[] Columns(IReadOnlyDictionary<Sign, double> distances)
    {
        var columns = new double[ColumnCount];
        foreach ((Sign sign, double distance) in distances)
        {
            columns[Column(sign, distance > 0)] = Math.Abs(distance);
        }

        return columns;
    }

    /// <summary>The tree as text: questions as "(+Sign threshold value no yes)" or "(-Sign …)", answers as values.</summary>
    public string Write() => Write(0);

    /// <summary>Reads what <see cref="Write()"/> wrote.</summary>
    public static SignTree Read(string text)
    {
        var nodes = new List<TreeNode>();
        string[] words = text.Replace("(", "( ", StringComparison.Ordinal).Replace(")", " )", StringComparison.Ordinal).Split(' ', StringSplitOptions.RemoveEmptyEntries);
        int word = 0;
        Read(words, ref word, 0, nodes);
        return new SignTree([.. nodes]);
    }

    private int Next(int at, double[] columns) => (2 * at) + (columns[nodes[at].Column] > nodes[at].Threshold ? 2 : 1);

    private string Write(int at)
    {
        TreeNode node = nodes[at];
        return node.Column < 0
            ? Text(node.Value)
            : $"({(node.Column % 2 == 0 ? '+' : '-')}{(Sign)(node.Column / 2)} {node.Threshold.ToString("G3", CultureInfo.InvariantCulture)} {Text(node.Value)} {Write((2 * at) + 1)} {Write((2 * at) + 2)})";
    }

    private static void Read(string[] words, ref int word, int at, List<TreeNode> nodes)
    {
        while (nodes.Count <= at)
        {
            nodes.Add(default);
        }

        if (words[word] != "(")
        {
            nodes[at] = new TreeNode(-1, 0, Number(words[word++]));
            return;
        }

        word++;
        string name = words[word++];
        int column = Column(Enum.Parse<Sign>(name.AsSpan(1)), name[0] == '+');
        (double threshold, double value) = (Number(words[word++]), Number(words[word++]));
        nodes[at] = new TreeNode(column, threshold, value);
        Read(words, ref word, (2 * at) + 1, nodes);
        Read(words, ref word, (2 * at) + 2, nodes);
        word++;
    }

    private static string Text(double value) => value.ToString("0.####", CultureInfo.InvariantCulture);

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
