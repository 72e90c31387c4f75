using Clackbeat.Records.Tables;

namespace Clackbeat.DiagnosisStudy.Records;

/// <summary>Reads a whole CSV trace.</summary>
public static class TraceReader
{
    public static (double[] TimesS, double[] PressuresPa) Read(string path)
    {
        using var trace = TraceFile.Open(path, TraceColumns.Parse(null, null));
        var times = new List<double>();
        var pressures = new List<double>();
        double[] t = new double[8192];
        double[] p = new double[8192];
        while (trace.Read(t, p) is > 0 and var count)
        {
            times.AddRange(t.AsSpan(0, count));
            pressures.AddRange(p.AsSpan(0, count));
        }

        return ([.. times], [.. pressures]);
    }
}
