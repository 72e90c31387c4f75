using Clackbeat.Records.Samples;
using Clackbeat.Records.Tables;
using Clackbeat.Site;

namespace Clackbeat.Fuzz;

/// <summary>A table through the trace reader and the conditioner. The first byte chooses how its columns are named.</summary>
internal static class CsvTarget
{
    private static readonly TraceColumns[] Namings =
    [
        TraceColumns.Default,
        TraceColumns.Parse("1:s", "2:kPa"),
        TraceColumns.Parse("2:day", "1:-cm"),
        TraceColumns.Parse("time_ms", "level [bar]"),
    ];

    private static readonly double[] TimesS = new double[512];
    private static readonly double[] PressuresPa = new double[512];

    public static void Run(byte[] input)
    {
        TraceColumns columns = Namings[input.Length > 0 ? input[0] % Namings.Length : 0];
        try
        {
            int from = Math.Min(1, input.Length);
            using var trace = TraceFile.Open(() => new MemoryStream(input, from, input.Length - from, writable: false), "any.csv", columns);
            double last = double.NegativeInfinity;
            TraceConditioner conditioner = new((timeS, pressurePa) =>
            {
                BrokenPromiseException.Unless(timeS > last, "times don't rise");
                BrokenPromiseException.Unless(double.IsFinite(timeS) && double.IsFinite(pressurePa), "a sample is no number");
                last = timeS;
            });
            while (trace.Read(TimesS, PressuresPa) is > 0 and var count)
            {
                for (int i = 0; i < count; i++)
                {
                    conditioner.Add(TimesS[i], PressuresPa[i]);
                }
            }

            conditioner.Finish();
        }
        catch (InputException)
        {
            // A table that is refused in words.
        }
    }
}
