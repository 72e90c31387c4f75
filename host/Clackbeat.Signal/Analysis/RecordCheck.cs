using System.Globalization;
using Clackbeat.Records.Samples;
using Clackbeat.Signal.States;
using Clackbeat.Site;
using Clackbeat.Site.Facts;

namespace Clackbeat.Signal.Analysis;

/// <summary>Refuses records that tell nothing, and lists the damage of others.</summary>
internal static class RecordCheck
{
    /// <summary>Throws when no figure could come of the record.</summary>
    public static void Refuse(string file, long taken, long impossible, RecordTally tally, TraceConditioner conditioner)
    {
        if (taken == 0)
        {
            throw InputException.Of("table.no-rows", ("file", file));
        }

        if (impossible * 2 > taken)
        {
            throw InputException.Of("table.impossible", ("file", file), ("impossible", impossible), ("taken", taken));
        }

        if (conditioner.Unordered * 2 > taken || conditioner.ClockJumps * 10L > taken)
        {
            throw InputException.Of("table.backwards", ("file", file));
        }

        if (tally.DurationS < RamAnalyser.ShortestRecordS)
        {
            throw InputException.Of("table.too-short", ("file", file), ("length_s", tally.DurationS));
        }
    }

    /// <summary>What of the record was lost or damaged; none where it is whole.</summary>
    public static IReadOnlyList<Fact> Losses(long skippedRows, long impossible, int clockJumps)
    {
        Fact?[] losses =
        [
            skippedRows > 0 ? Fact.Of("rows-unusable", ("rows", skippedRows)) : null,
            impossible > 0 ? Fact.Of("values-impossible", ("values", impossible)) : null,
            clockJumps > 0 ? Fact.Of("clock-jumped", ("jumps", clockJumps)) : null,
        ];
        return [.. losses.OfType<Fact>()];
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
