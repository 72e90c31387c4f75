using System.Globalization;

namespace Clackbeat.Records.Tables;

/// <summary>How the cells of a time column are written.</summary>
internal enum TimeForm
{
    /// <summary>A number, whose unit the header or the user names.</summary>
    Number,

    /// <summary>Hours, minutes and seconds: 13:05:01.250; past midnight they go on.</summary>
    Clock,

    /// <summary>A date and a time of ISO 8601; local time where it names no offset.</summary>
    Instant,
}

/// <summary>Reads the cells of a time column, all in one form, into seconds.</summary>
/// <param name="form">How they are written.</param>
/// <param name="scale">Seconds of 1, for numbers.</param>
/// <param name="numbers">Decimal mark.</param>
internal sealed class TimeCells(TimeForm form, double scale, NumberFormatInfo numbers)
{
    private static readonly string[] ClockForms =
    [
        @"h\:m\:s", @"h\:m\:s\.FFFFFFF", @"m\:s\.FFFFFFF", @"d\.h\:m\:s\.FFFFFFF", @"d\.h\:m\:s",
    ];

    private static readonly string[] DateForms = ["yyyy-M-d", "yyyy/M/d", "yyyy-MM-dd", "yyyyMMdd"];

    private double _daysS;
    private double _lastS = double.NegativeInfinity;
    private DateTimeOffset? _first;

    /// <summary>The first instant read; null while none was, or for cells that name no date.</summary>
    public DateTimeOffset? First => _first;

    /// <summary>The form of a cell; null when it is no time.</summary>
    public static TimeForm? FormOf(ReadOnlySpan<char> cell, NumberFormatInfo numbers) =>
        double.TryParse(cell, NumberStyles.Float, numbers, out _) ? TimeForm.Number
        : TryClock(cell, out _) ? TimeForm.Clock
        : TryInstant(cell, out _) ? TimeForm.Instant
        : null;

    /// <summary>Reads a cell [s]; instants count from the first one.</summary>
    public bool TryRead(ReadOnlySpan<char> cell, out double timeS)
    {
        switch (form)
        {
            case TimeForm.Number:
                bool isNumber = double.TryParse(cell, NumberStyles.Float, numbers, out timeS);
                timeS *= scale;
                return isNumber;
            case TimeForm.Clock:
                bool isClock = TryClock(cell, out TimeSpan clock);
                timeS = isClock ? PastMidnight(clock.Ticks / (double)TimeSpan.TicksPerSecond) : 0;
                return isClock;
            default:
                bool isInstant = TryInstant(cell, out DateTimeOffset instant);
                _first ??= isInstant ? instant : null;
                timeS = isInstant ? (instant - _first!.Value).Ticks / (double)TimeSpan.TicksPerSecond : 0;
                return isInstant;
        }
    }

    // A clock that falls back by more than half a day has passed midnight.
    private double PastMidnight(double clockS)
    {
        const double DayS = 86_400;
        _daysS += clockS + _daysS < _lastS - (0.5 * DayS) ? DayS : 0;
        _lastS = clockS + _daysS;
        return _lastS;
    }

    private static bool TryClock(ReadOnlySpan<char> cell, out TimeSpan clock)
    {
        clock = default;
        if (!cell.Contains(':') || cell.ContainsAny('-', '/', 'T'))
        {
            return false;
        }

        Span<char> plain = stackalloc char[cell.Length];
        cell.CopyTo(plain);
        plain.Replace(',', '.');
        return TimeSpan.TryParseExact(plain, ClockForms, CultureInfo.InvariantCulture, out clock);
    }

    // Only dates that begin with the year: 05/06 is May to one keeper and June to another.
    private static bool TryInstant(ReadOnlySpan<char> cell, out DateTimeOffset instant)
    {
        instant = default;
        int end = cell.IndexOfAny('T', ' ');
        ReadOnlySpan<char> date = end < 0 ? cell : cell[..end];
        if (end < 0 || !DateOnly.TryParseExact(date, DateForms, CultureInfo.InvariantCulture, DateTimeStyles.None, out _))
        {
            return false;
        }

        Span<char> plain = stackalloc char[cell.Length];
        cell.CopyTo(plain);
        plain.Replace(',', '.');
        return DateTimeOffset.TryParse(plain, CultureInfo.InvariantCulture, DateTimeStyles.AssumeLocal, out instant);
    }
}
