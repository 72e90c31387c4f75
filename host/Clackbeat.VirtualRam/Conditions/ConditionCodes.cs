using System.Text.Json;

namespace Clackbeat.VirtualRam.Conditions;

/// <summary>Conditions and their kinds as users write and read them: lower case with hyphens.</summary>
public static class ConditionCodes
{
    /// <summary>All codes of a kind of word, such as <see cref="RamCondition"/>.</summary>
    public static IReadOnlyList<string> All<TEnum>()
        where TEnum : struct, Enum => [.. Enum.GetValues<TEnum>().Select(v => v.Code())];

    /// <summary>The code of a value, such as "waste-valve-leaking".</summary>
    public static string Code<TEnum>(this TEnum value)
        where TEnum : struct, Enum => JsonNamingPolicy.KebabCaseLower.ConvertName(value.ToString());

    /// <summary>The value of a code that is known to have one.</summary>
    public static TEnum Parse<TEnum>(string code)
        where TEnum : struct, Enum => TryParse(code, out TEnum value) ? value : throw new ArgumentException($"\"{code}\" is no {typeof(TEnum).Name}.", nameof(code));

    /// <summary>Finds the value of a code.</summary>
    public static bool TryParse<TEnum>(string code, out TEnum value)
        where TEnum : struct, Enum
    {
        foreach (TEnum candidate in Enum.GetValues<TEnum>())
        {
            if (candidate.Code() == code)
            {
                value = candidate;
                return true;
            }
        }

        value = default;
        return false;
    }
}
