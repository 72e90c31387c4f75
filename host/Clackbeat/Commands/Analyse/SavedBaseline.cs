using System.Globalization;
using Clackbeat.Frame;
using Clackbeat.Records.Samples;
using Clackbeat.Records.Sources;

namespace Clackbeat.Commands.Analyse;

/// <summary>
/// The baseline that a keeper made: samples of the well ram in a table beside the site file, from then on compared with by every command
/// that judges. Samples are kept and not their features, so that a later program reads them by its own method.
/// </summary>
internal static class SavedBaseline
{
    private const string Ending = ".baseline.csv";

    // Says that these are gauge pressures even where the site's sensor is an absolute one.
    private const string Header = "t_s,p (kPa gauge)";

    /// <summary><c>--no-baseline</c></summary>
    public static System.CommandLine.Option<bool> Without() => new("--no-baseline")
    {
        Description = "Leave out the baseline that 'clackbeat baseline' saved beside the site file",
    };

    /// <summary>Where the baseline of a site file stands, be it there or not.</summary>
    public static string PathOf(string sitePath)
    {
        string name = Path.GetFileNameWithoutExtension(sitePath);
        const string Inner = ".site";
        name = name.EndsWith(Inner, StringComparison.OrdinalIgnoreCase) ? name[..^Inner.Length] : name;
        return Path.Combine(Path.GetDirectoryName(sitePath) ?? "", name + Ending);
    }

    /// <summary>The baseline saved for a site file; null where there is none.</summary>
    public static string? Find(string? sitePath) => sitePath is not null && PathOf(sitePath) is var path && File.Exists(path) ? path : null;

    /// <summary>Saves samples as the baseline of a site file, in place of the one that is there.</summary>
    /// <returns>Name of the file.</returns>
    public static string Save(string sitePath, double[] timesS, double[] pressuresPa)
    {
        using var file = OutputFile.Create(PathOf(sitePath), overwrite: true);
        file.WriteAndCommit(writer =>
        {
            writer.Write(Header + "\n");
            for (int i = 0; i < timesS.Length; i++)
            {
                writer.Write(Row(timesS[i] - timesS[0], pressuresPa[i]));
            }
        });
        return Path.GetFileName(file.Path);
    }

    private static string Row(double timeS, double pressurePa) =>
        string.Create(CultureInfo.InvariantCulture, $"{timeS:R},{pressurePa / 1000:G7}\n");

    /// <summary>Saves a record as the baseline of a site file.</summary>
    /// <returns>Number of samples.</returns>
    public static long Save(Session session, ISampleSource source, OutputFile file)
    {
        long count = 0;
        file.WriteAndCommit(writer =>
        {
            writer.Write(Header + "\n");
            source.Read(samples =>
            {
                foreach (ref readonly Sample sample in samples)
                {
                    writer.Write(Row(sample.TimeS, sample.PressurePa));
                    count++;
                }
            }, null, session.Stop);
        });
        return count;
    }
}
