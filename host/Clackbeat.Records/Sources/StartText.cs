using System.Globalization;
using System.Text.RegularExpressions;
using Clackbeat.Site.Facts;

namespace Clackbeat.Records.Sources;

/// <summary>
/// When a record began, as its file's name or the remarks above its table tell: 2026-03-14T0600, 20260314-060000, 2026-03-14 06.00.30 and the
/// like, in this computer's time unless Z or an offset follows. A day alone is no start, and two different times in one text are none.
/// </summary>
public static partial class StartText
{
    // A time told to the minute may be rounded either way.
    private const double UncertaintyOfMinutesS = 60;
    private const double UncertaintyOfSecondsS = 1;

    /// <summary>The start that a file's name tells; null for none.</summary>
    /// <param name="path">The file.</param>
    /// <param name="zone">Time zone of times that name none.</param>
    public static (RecordStart Start, Fact Remark)? InName(string path, TimeZoneInfo zone)
    {
        string name = Path.GetFileNameWithoutExtension(path);
        return Find(name, zone) is { } start ? (start, Fact.Of("table.start-in-name", ("at", Shown(start, zone)))) : null;
    }

    /// <summary>The start that the remarks above a table tell, on a line that speaks of one; null for none.</summary>
    /// <param name="remarks">The lines.</param>
    /// <param name="zone">Time zone of times that name none.</param>
    public static (RecordStart Start, Fact Remark)? InRemarks(IEnumerable<string> remarks, TimeZoneInfo zone)
    {
        foreach (string line in remarks.Where(l => Speaks().IsMatch(l)))
        {
            if (Find(line, zone) is { } start)
            {
                return (start, Fact.Of("table.start-in-remark", ("at", Shown(start, zone)), ("line", line.Trim())));
            }
        }

        return null;
    }

    private static RecordStart? Find(string text, TimeZoneInfo zone)
    {
        RecordStart?[] found = [.. Stamp().Matches(text).Select(m => Read(m, zone)).Distinct()];
        return found is [{ } one] ? one : null;
    }

    private static RecordStart? Read(Match stamp, TimeZoneInfo zone)
    {
        int Part(string name) => int.Parse(stamp.Groups[name].ValueSpan, CultureInfo.InvariantCulture);
        bool hasSeconds = stamp.Groups["s"].Success;
        if (!DateTime.TryParseExact(
            string.Create(CultureInfo.InvariantCulture, $"{Part("y"):0000}-{Part("mo"):00}-{Part("d"):00} {Part("h"):00}:{Part("mi"):00}:{(hasSeconds ? Part("s") : 0):00}"),
            "yyyy-MM-dd HH:mm:ss", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateTime wall))
        {
            return null;
        }

        string offset = stamp.Groups["z"].Value;
        double uncertaintyS = hasSeconds ? UncertaintyOfSecondsS : UncertaintyOfMinutesS;
        if (offset.Length == 0)
        {
            // In the hour that comes twice nobody knows which was meant; the hour that is left out never was.
            return zone.IsInvalidTime(wall)
                ? null
                : new RecordStart(new DateTimeOffset(wall, zone.GetUtcOffset(wall)).ToUniversalTime(), uncertaintyS + (zone.IsAmbiguousTime(wall) ? 3600 : 0));
        }

        TimeSpan ahead = offset is "Z" or "z" ? TimeSpan.Zero : Offset(offset);
        return ahead.Duration() <= TimeSpan.FromHours(14) ? new RecordStart(new DateTimeOffset(wall, ahead).ToUniversalTime(), uncertaintyS) : null;
    }

    private static TimeSpan Offset(string text)
    {
        string digits = text[1..].Replace(":", "", StringComparison.Ordinal);
        var ahead = new TimeSpan(int.Parse(digits[..2], CultureInfo.InvariantCulture), int.Parse(digits[2..], CultureInfo.InvariantCulture), 0);
        return text[0] == '-' ? -ahead : ahead;
    }

    private static string Shown(RecordStart start, TimeZoneInfo zone) =>
        TimeZoneInfo.ConvertTime(start.Utc, zone).ToString("yyyy-MM-dd HH:mm:ss zzz", CultureInfo.InvariantCulture);

    [GeneratedRegex(
        @"(?<!\d)(?<y>20\d\d)[-_.]?(?<mo>\d\d)[-_.]?(?<d>\d\d)[T _-]{1,2}(?<h>\d\d)[-:_.h]?(?<mi>\d\d)(?:[-:_.m]?(?<s>\d\d)(?:[.,]\d+)?)?(?<z>[Zz]|[+-]\d\d:?\d\d)?(?!\d)",
        RegexOptions.CultureInvariant)]
    private static partial Regex Stamp();

    [GeneratedRegex("start|beg[ia]n|recorded|first sample|inicio|comienzo|début|debut|início", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Speaks();
}
