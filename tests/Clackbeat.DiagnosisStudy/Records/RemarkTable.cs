using System.Collections.Concurrent;
using System.Globalization;
using Clackbeat.DiagnosisStudy.Rams;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;

namespace Clackbeat.DiagnosisStudy.Records;

/// <summary>How often the kept records show the signs that name no condition: on all that don't have the cause, each is a false alarm.</summary>
public static class RemarkTable
{
    private static readonly string[] Codes = ["interval-step", "foreign-rate", "outlet-drowned"];

    /// <summary>Counts them over the records of a range of rams, each set against the ram's own baseline.</summary>
    /// <param name="folder">Kept records.</param>
    /// <param name="first">Number of the first ram.</param>
    /// <param name="count">Number of rams.</param>
    public static string Count(string folder, int first, int count)
    {
        var found = new ConcurrentBag<(string Case, string[] Codes)>();
        Parallel.For(first, first + count, number =>
        {
            if (StudyRam.Make(number) is not { } ram)
            {
                return;
            }

            Signature? well = null;
            foreach (StudyCase one in StudyCase.Of(ram))
            {
                string path = RecordMaker.PathOf(folder, ram, one);
                if (!File.Exists(path) || new FileInfo(path).Length <= 4)
                {
                    continue;
                }

                (double[] times, double[] pressures) = RecordFile.Read(path);
                var analyser = new RamAnalyser(ram.Site, well);
                analyser.Add(times, pressures);
                RamAnalysis analysis = analyser.Finish("a record of the study");
                well ??= analysis.Signature;
                string name = one.Faults.Count == 0 ? "healthy" : string.Join('+', one.Faults.Select(CaseNames.Of));
                // A stand pipe swings by itself, and another ram may draw from it: a foreign rate is true there.
                string stand = ram.Ram.Supply.StandPipe is null ? "" : ", stand pipe";
                found.Add(((one.Faults.Count > 1 ? "pairs" : name) + stand, [.. analysis.Findings.Where(BeatRemarks.IsOne).Select(f => f.Code)]));
            }
        });
        return string.Join('\n', found.GroupBy(f => f.Case).OrderBy(g => g.Key, StringComparer.Ordinal).Select(g => string.Create(
            CultureInfo.InvariantCulture,
            $"{g.Key}: {g.Count()} records; {string.Join(", ", Codes.Select(c => $"{c} {g.Count(f => f.Codes.Contains(c))}"))}")));
    }
}
