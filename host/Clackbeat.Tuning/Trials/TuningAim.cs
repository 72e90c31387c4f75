using Clackbeat.Site;
using Clackbeat.Words;

namespace Clackbeat.Tuning.Trials;

/// <summary>What the ram is tuned for.</summary>
public enum TuningAim
{
    /// <summary>The most water delivered.</summary>
    MostDelivered,

    /// <summary>The least water wasted for what is delivered: the highest efficiency.</summary>
    LeastWasted,

    /// <summary>The gentlest peak that still delivers enough.</summary>
    GentlestPeak,
}

/// <summary>The words for aims.</summary>
public static class TuningAims
{
    private static readonly (TuningAim Aim, string Word, string Meaning)[] Words =
    [
        (TuningAim.MostDelivered, "most-delivered", "tuning.most-delivered"),
        (TuningAim.LeastWasted, "least-wasted", "tuning.least-wasted"),
        (TuningAim.GentlestPeak, "gentlest-peak", "tuning.gentlest-peak"),
    ];

    /// <summary>The word for an aim on the command line.</summary>
    public static string Word(this TuningAim aim) => Words.First(w => w.Aim == aim).Word;

    /// <summary>What an aim means.</summary>
    public static string Meaning(this TuningAim aim) => Phrases.Say(Words.First(w => w.Aim == aim).Meaning);

    /// <summary>All words.</summary>
    public static IReadOnlyList<string> All => [.. Words.Select(w => w.Word)];

    /// <summary>The aim a word stands for.</summary>
    /// <exception cref="InputException">No aim is called so.</exception>
    public static TuningAim Parse(string word)
    {
        foreach ((TuningAim aim, string known, _) in Words)
        {
            if (known == word)
            {
                return aim;
            }
        }

        throw InputException.Of("tuning.no-aim", ("word", word), ("known", string.Join(", ", All)));
    }
}
