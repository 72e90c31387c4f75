using System.Globalization;
using System.Text.RegularExpressions;

namespace Clackbeat.Season.Upkeep;

/// <summary>How often something is checked: after days, hours run or beats, whichever comes first. All null for never.</summary>
/// <param name="Days">Days.</param>
/// <param name="Hours">Hours run.</param>
/// <param name="Beats">Beats.</param>
public sealed partial record UpkeepInterval(double? Days, double? Hours, double? Beats)
{
    /// <summary>Not at all.</summary>
    public static UpkeepInterval Never { get; } = new(null, null, null);

    /// <summary>Reads an interval such as "90 days", "2000 h or 5000000 beats", or "never".</summary>
    /// <param name="text">The text.</param>
    /// <param name="interval">The interval, where it is one.</param>
    public static bool TryParse(string text, out UpkeepInterval interval)
    {
        interval = Never;
        if (text.Trim().Equals("never", StringComparison.OrdinalIgnoreCase))
        {
            return true;
        }

        foreach (string part in Or().Split(text))
        {
            Match match = Part().Match(part);
            if (!match.Success || !double.TryParse(match.Groups[1].Value, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double number) || number <= 0)
            {
                return false;
            }

            interval = match.Groups[2].Value.ToLowerInvariant() switch
            {
                "h" or "hour" or "hours" => interval with { Hours = number },
                "beat" or "beats" => interval with { Beats = number },
                "week" or "weeks" => interval with { Days = 7 * number },
                _ => interval with { Days = number },
            };
        }

        return true;
    }

    [GeneratedRegex(@"\s+or\s+", RegexOptions.IgnoreCase)]
    private static partial Regex Or();

    [GeneratedRegex(@"^\s*([0-9.]+)\s*(h|hours?|beats?|days?|weeks?)\s*$", RegexOptions.IgnoreCase)]
    private static partial Regex Part();
}
