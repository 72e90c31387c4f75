using System.Globalization;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Sensing;

namespace Clackbeat.Commands.Simulate;

/// <summary>Writes samples as the CSV trace that analyse reads.</summary>
internal static class VirtualTrace
{
    private const int SamplesPerReport = 1000;

    /// <summary>The line above the rows.</summary>
    public static void WriteHeader(TextWriter writer) => writer.Write("t_s,p_kPa\n");

    /// <summary>A sample's row.</summary>
    public static void WriteRow(TextWriter writer, double timeS, double pressurePa) => writer.Write(string.Create(
        CultureInfo.InvariantCulture, $"{timeS:0.000000},{pressurePa / 1000:0.000}\n"));

    /// <summary>Runs the ram for a time and writes each sample.</summary>
    /// <param name="ram">The ram.</param>
    /// <param name="durationS">How long [s].</param>
    /// <param name="stream">Where to; left open.</param>
    /// <param name="progress">Receives the share done, 0 to 1.</param>
    /// <param name="stop">Ends the work early.</param>
    public static void Write(
        RamSimulation ram, double durationS, Stream stream, IProgress<double> progress, CancellationToken stop)
    {
        using var writer = new StreamWriter(stream, leaveOpen: true);
        WriteHeader(writer);
        long rows = 0;
        foreach (VirtualSample sample in ram.Samples(durationS))
        {
            WriteRow(writer, sample.TimeS, sample.PressurePa);
            if (++rows % SamplesPerReport == 0)
            {
                stop.ThrowIfCancellationRequested();
                progress.Report(sample.TimeS / durationS);
            }
        }
    }
}
