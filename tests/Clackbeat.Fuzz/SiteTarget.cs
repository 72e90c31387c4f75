using System.Text;
using Clackbeat.Site;
using Clackbeat.Site.Calibrations;
using Clackbeat.Site.Check;
using Clackbeat.Site.Files;

namespace Clackbeat.Fuzz;

/// <summary>A site file through reader, check and expected figures; a calibration file through its reader.</summary>
internal static class SiteTarget
{
    public static void Run(byte[] input)
    {
        string text = Encoding.UTF8.GetString(input);
        SiteReading reading = SiteFile.ReadText(text, "any.toml");
        var check = SiteCheck.Of(reading);
        BrokenPromiseException.Unless(
            check.Site is not null || check.Problems.Count > 0, "a site file is neither read nor refused");
        if (check.Site is { } site && check.Problems.Count == 0)
        {
            SiteLoad.Of(site);
        }

        try
        {
            CalibrationFile.Parse(text, "any.toml");
        }
        catch (InputException)
        {
            // A file that is refused in words.
        }
    }
}
