using System.Globalization;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Sensing;

namespace Clackbeat.Commands;

/// <summary>Writes a virtual ram's samples as the CSV trace that analyse reads.</summary>
internal static class VirtualTrace
{
    private const int SamplesPerReport = 1000;

    /// <summary>Runs the ram for a time and writes each sample.</summary>
    /// <param name="ram">The ram.</param>
    /// <param name="durationS">How long [s].</param>
    /// <param name="stream">Where to; left open.</param>
    /// <param name="progress">Receives the share done, 0 to 1.</param>
    /// <param name="stop">Ends the work early.</param>
    /// <param name="onSample">Sees each sample too; null for nobody.</param>
    public static void Write(
        RamSimulation ram, double durationS, Stream stream, IProgress<double> progress, CancellationToken stop, Action<VirtualSample>? onSample = null)
    {
        using var writer = new StreamWriter(stream, leaveOpen: true);
        writer.Write("t_s,p_kPa\n");
        long rows = 0;
        foreach (VirtualSample sample in ram.Samples(durationS))
        {
            writer.Write(string.Create(
                CultureInfo.InvariantCulture, $"{sample.TimeS:0.000000},{sample.PressurePa / 1000:0.000}\n"));
            onSample?.Invoke(sample);
            if (++rows % SamplesPerReport == 0)
            {
                stop.ThrowIfCancellationRequested();
                progress.Report(sample.TimeS / durationS);
            }
        }
    }
}
