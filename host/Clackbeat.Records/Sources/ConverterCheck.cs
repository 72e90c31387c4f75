using System.Numerics;
using Clackbeat.Sensing.Calibrating;
using Clackbeat.Site;
using Clackbeat.Site.Facts;

namespace Clackbeat.Records.Sources;

/// <summary>A logger tells how far its converter counts; a site file that says otherwise would make wrong pressures of its counts.</summary>
internal static class ConverterCheck
{
    /// <summary>Refuses counts of a converter that the site doesn't describe.</summary>
    /// <param name="name">The recording or line.</param>
    /// <param name="toldMax">Largest count of the logger's converter.</param>
    /// <param name="conversion">How the site turns counts into pressure.</param>
    /// <exception cref="InputException">They differ.</exception>
    public static void Refuse(string name, int toldMax, SensorConversion conversion)
    {
        int siteMax = conversion.Path.Converter.MaxCounts;
        if (toldMax == siteMax)
        {
            return;
        }

        Fact remedy = conversion.Calibration is null
            ? Fact.Of("recording.set-bits", ("bits", BitOperations.Log2((uint)toldMax) + 1))
            : Fact.Of("recording.calibrated-otherwise");
        throw InputException.Of("recording.other-converter", ("file", name), ("told", toldMax), ("site", siteMax), ("remedy", remedy));
    }
}
