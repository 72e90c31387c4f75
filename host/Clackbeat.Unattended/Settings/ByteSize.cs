using System.Globalization;
using System.Text.RegularExpressions;

namespace Clackbeat.Unattended.Settings;

/// <summary>Sizes on a disk, in the powers of ten that disks are sold by.</summary>
public static partial class ByteSize
{
    private static readonly (string Unit, double Bytes)[] Units = [("GB", 1e9), ("MB", 1e6), ("kB", 1e3), ("TB", 1e12), ("B", 1)];

    /// <summary>Reads a size such as "8 GB".</summary>
    /// <param name="text">The text.</param>
    /// <param name="bytes">The size [bytes].</param>
    public static bool TryParse(string text, out long bytes)
    {
        bytes = 0;
        Match match = Form().Match(text);
        if (!match.Success || !double.TryParse(match.Groups["n"].Value, CultureInfo.InvariantCulture, out double figure))
        {
            return false;
        }

        double size = figure * Units.FirstOrDefault(u => u.Unit.Equals(match.Groups["u"].Value, StringComparison.OrdinalIgnoreCase)).Bytes;
        bytes = size is >= 0 and < 1e18 ? (long)size : 0;
        return bytes > 0;
    }

    /// <summary>A size for people, such as "3.2 GB".</summary>
    /// <param name="bytes">The size [bytes].</param>
    public static string Text(long bytes) => bytes switch
    {
        >= 1_000_000_000 => string.Create(CultureInfo.InvariantCulture, $"{bytes / 1e9:0.0} GB"),
        >= 1_000_000 => string.Create(CultureInfo.InvariantCulture, $"{bytes / 1e6:0} MB"),
        _ => string.Create(CultureInfo.InvariantCulture, $"{bytes / 1e3:0} kB"),
    };

    [GeneratedRegex(@"^\s*(?<n>\d+(\.\d+)?)\s*(?<u>[kMGT]?B)\s*$", RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture)]
    private static partial Regex Form();
}
