using System.Text;

namespace Clackbeat.VirtualRam.Conditions;

/// <summary>The codes of conditions as users write and read them: lower case with hyphens.</summary>
public static class ConditionCodes
{
    private static readonly Dictionary<RamCondition, string> Codes =
        Enum.GetValues<RamCondition>().ToDictionary(c => c, Hyphenate);

    /// <summary>All codes.</summary>
    public static IReadOnlyCollection<string> All => Codes.Values;

    /// <summary>The code of a condition.</summary>
    public static string Code(this RamCondition condition) => Codes[condition];

    /// <summary>Finds the condition of a code.</summary>
    public static bool TryParse(string code, out RamCondition condition)
    {
        foreach (var (candidate, text) in Codes)
        {
            if (text == code)
            {
                condition = candidate;
                return true;
            }
        }

        condition = default;
        return false;
    }

    private static string Hyphenate(RamCondition condition)
    {
        var text = new StringBuilder();
        foreach (var letter in condition.ToString())
        {
            if (char.IsUpper(letter) && text.Length > 0)
            {
                text.Append('-');
            }

            text.Append(char.ToLowerInvariant(letter));
        }

        return text.ToString();
    }
}
