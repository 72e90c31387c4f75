namespace Clackbeat.DiagnosisStudy.Records;

/// <summary>A simulated record on disk: the count, then times [s] and gauge pressures [Pa] as single-precision numbers.</summary>
public static class RecordFile
{
    public static void Write(string path, IReadOnlyList<double> timesS, IReadOnlyList<double> pressuresPa)
    {
        using var writer = new BinaryWriter(File.Create(path));
        writer.Write(timesS.Count);
        for (int i = 0; i < timesS.Count; i++)
        {
            writer.Write((float)timesS[i]);
            writer.Write((float)pressuresPa[i]);
        }
    }

    public static (double[] TimesS, double[] PressuresPa) Read(string path)
    {
        byte[] bytes = File.ReadAllBytes(path);
        int count = BitConverter.ToInt32(bytes, 0);
        double[] times = new double[count];
        double[] pressures = new double[count];
        for (int i = 0; i < count; i++)
        {
            times[i] = BitConverter.ToSingle(bytes, 4 + (8 * i));
            pressures[i] = BitConverter.ToSingle(bytes, 8 + (8 * i));
        }

        return (times, pressures);
    }
}
