using Clackbeat.Site.Facts;

namespace Clackbeat.Planning.Wishes;

/// <summary>A wish that can't be read: in which field, and what to write there.</summary>
/// <param name="field">The field, as the command line names it, without its dashes.</param>
/// <param name="problem">What is wrong and what to do.</param>
public sealed class WishException(string field, Fact problem) : Exception($"{field}: {problem.Code}")
{
    /// <summary>The field.</summary>
    public string Field { get; } = field;

    /// <summary>What is wrong, to be told by whoever asked.</summary>
    public Fact Problem { get; } = problem;
}
