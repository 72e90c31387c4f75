using Clackbeat.DiagnosisStudy.Rams;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Sensing;

namespace Clackbeat.DiagnosisStudy.Records;

/// <summary>Runs rams and leaves their records in a folder; what is there already is not run again.</summary>
public static class RecordMaker
{
    private const double LengthS = 30;

    /// <summary>Makes the records of a range of rams.</summary>
    public static void Make(string folder, int first, int count)
    {
        Directory.CreateDirectory(folder);
        Parallel.For(first, first + count, new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount }, number =>
        {
            if (StudyRam.Make(number) is not { } ram)
            {
                return;
            }

            foreach (StudyCase one in StudyCase.Of(ram))
            {
                string path = PathOf(folder, ram, one);
                if (!File.Exists(path))
                {
                    Run(path, one);
                }

                if (one.Number == 0 && new FileInfo(path).Length < 5)
                {
                    return;
                }
            }
        });
    }

    public static string PathOf(string folder, StudyRam ram, StudyCase one) =>
        Path.Combine(folder, FormattableString.Invariant($"{ram.Number:00000}-{one.Number:00}.bin"));

    /// <summary>A ram that stops by itself, without being told to, leaves an empty record: another case of the study, not this one.</summary>
    private static void Run(string path, StudyCase one)
    {
        RamSimulation ram = one.Start();
        List<VirtualSample> samples = [.. ram.Samples(LengthS)];
        bool beats = one.Stops || ram.Totals.Beats > 5 && ram.Totals.DurationS > LengthS - (4 * ram.Totals.DurationS / ram.Totals.Beats);
        RecordFile.Write(
            path + ".part",
            beats ? [.. samples.Select(s => s.TimeS)] : [],
            beats ? [.. samples.Select(s => s.PressurePa)] : []);
        File.Move(path + ".part", path, overwrite: true);
    }
}
