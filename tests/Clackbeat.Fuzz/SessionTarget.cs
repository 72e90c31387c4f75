using Clackbeat.Site;
using Clackbeat.Tuning.Search;
using Clackbeat.Tuning.Trials;

namespace Clackbeat.Fuzz;

/// <summary>The file of a tuning session, which may come from somebody else: what is read can be written again, and the next setting can be told.</summary>
internal static class SessionTarget
{
    private static readonly string Path = Scratch.File("any.tune");

    public static void Run(byte[] input)
    {
        File.WriteAllBytes(Path, input);
        try
        {
            TuningSession session = SessionFile.Load(Path);
            TrialDifferences.Of(session);
            NextSetting.Of(session);
        }
        catch (InputException)
        {
            // A file that is refused in words.
        }
    }
}
