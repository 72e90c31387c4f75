using F23.StringSimilarity;

namespace Clackbeat.Site;

/// <summary>Guesses which known word a misspelt one stands for.</summary>
public static class Spelling
{
    // At most this share of the longer word may differ; beyond it a guess confuses more than it helps.
    private const double LargestShareChanged = 0.5;

    // No known word is nearly as long, and the work grows with the length.
    private const int LongestGuessed = 60;

    private static readonly Damerau Distance = new();

    /// <summary>The known word that takes the fewest slips of the finger to become <paramref name="word"/>.</summary>
    /// <param name="word">What was written.</param>
    /// <param name="known">What could have been meant.</param>
    /// <returns>The nearest, or null when none is near.</returns>
    public static string? Nearest(string word, IEnumerable<string> known)
    {
        if (word.Length > LongestGuessed)
        {
            return null;
        }

        string? lower = word.ToLowerInvariant();
        (string candidate, double changes) best = known
            .Select(candidate => (candidate, changes: Distance.Distance(lower, candidate.ToLowerInvariant())))
            .OrderBy(pair => pair.changes)
            .FirstOrDefault();
        if (best.candidate is null)
        {
            return null;
        }

        int longer = Math.Max(word.Length, best.candidate.Length);
        return best.changes <= LargestShareChanged * longer ? best.candidate : null;
    }
}
