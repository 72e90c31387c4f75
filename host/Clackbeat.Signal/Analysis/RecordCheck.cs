using System.Globalization;
using Clackbeat.Signal.Traces;
using Clackbeat.Site;

namespace Clackbeat.Signal.Analysis;

/// <summary>Refuses records that tell nothing, and puts the damage of others in words.</summary>
internal static class RecordCheck
{
    /// <summary>Throws when no figure could come of the record.</summary>
    public static void Refuse(string file, long taken, long impossible, RecordTally tally, TraceConditioner conditioner)
    {
        if (taken == 0)
        {
            throw new InputException($"{file} names its columns but holds no row with two numbers below them.");
        }

        if (impossible * 2 > taken)
        {
            throw new InputException(Text(
                $"{file}: {impossible} of {taken} pressures lie far outside the sensor's range. Is the unit of the pressure column right (--pressure COLUMN:UNIT), and is [sensor] range in the site file?"));
        }

        if (conditioner.Unordered * 2 > taken || conditioner.ClockJumps * 10L > taken)
        {
            throw new InputException($"{file}: time runs backwards in most rows. Sort the rows by time, or name the right time column with --time COLUMN:UNIT.");
        }

        if (tally.DurationS < RamAnalyser.ShortestRecordS)
        {
            throw new InputException(Text(
                $"{file} lasts {tally.DurationS:0.###} s. A beat alone can take four; record at least 10 s, better 60 s. If that is not its length, check the unit of the time column (--time COLUMN:UNIT)."));
        }
    }

    /// <summary>"complete", or what was lost.</summary>
    public static string Completeness(long skippedRows, long impossible, int clockJumps)
    {
        var losses = new List<string>();
        if (skippedRows > 0)
        {
            losses.Add(Text($"{skippedRows} rows held no usable pair of numbers"));
        }

        if (impossible > 0)
        {
            losses.Add(Text($"{impossible} pressures far outside the sensor's range were left out"));
        }

        if (clockJumps > 0)
        {
            losses.Add(Text($"the clock jumped back {clockJumps} times by more than a second; what follows was placed one second after what came before"));
        }

        return losses.Count == 0 ? "complete" : string.Join("; ", losses);
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
