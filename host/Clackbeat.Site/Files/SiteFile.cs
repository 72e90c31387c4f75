using System.Text;
using Clackbeat.Site.Calibrations;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;

namespace Clackbeat.Site.Files;

/// <summary>Reads the TOML file that describes a ram; every quantity is text with its unit.</summary>
public static class SiteFile
{
    private static readonly UTF8Encoding StrictUtf8 = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    /// <summary>Reads a site file from disk.</summary>
    /// <param name="path">The file.</param>
    /// <exception cref="InputException">The file is none, or its content can't stand; every mistake is named.</exception>
    /// <exception cref="IOException">The disk failed.</exception>
    public static RamSite Load(string path) => Read(path).SiteOrThrow();

    /// <summary>Reads the text of a site file.</summary>
    /// <param name="text">The content.</param>
    /// <param name="fileName">The name that messages show.</param>
    /// <exception cref="InputException">The content can't stand; every mistake is named with its line.</exception>
    public static RamSite Parse(string text, string fileName) => ReadText(text, fileName).SiteOrThrow();

    /// <summary>Reads a site file from disk and keeps what is wrong with it for the caller.</summary>
    /// <param name="path">The file.</param>
    /// <exception cref="InputException">There is no such file, or it is no text.</exception>
    public static SiteReading Read(string path)
    {
        if (!File.Exists(path))
        {
            throw Directory.Exists(path) ? InputException.Of("site.is-folder", ("file", path)) : InputException.Of("site.no-such-file", ("file", path));
        }

        return WithCalibration(ReadText(Decode(SmallFile.ReadBytes(path, Fact.Of("input.a-site-file")), path), path), path);
    }

    private static SiteReading WithCalibration(SiteReading reading, string path)
    {
        if (reading.Site is not { Sensor.CalibrationFile: { } name } site)
        {
            return reading;
        }

        string? folder = Path.GetDirectoryName(Path.GetFullPath(path)) ?? "";
        try
        {
            Sensor sensor = site.Sensor with { Calibration = CalibrationFile.Load(Path.Combine(folder, name)) };
            return new SiteReading(reading.FileName, site with { Sensor = sensor }, reading.Values, reading.Problems);
        }
        catch (InputException refused)
        {
            int? line = reading.Values?.LineOf("sensor", "calibration");
            SiteProblem problem = new(line, Fact.Of("site.calibration-refused", ("why", refused.What)));
            return new SiteReading(reading.FileName, site, reading.Values, [.. reading.Problems, problem]);
        }
    }

    /// <summary>Reads the text of a site file and keeps what is wrong with it for the caller.</summary>
    /// <param name="text">The content.</param>
    /// <param name="fileName">The name that messages show.</param>
    public static SiteReading ReadText(string text, string fileName)
    {
        var document = SiteDocument.Parse(text.TrimStart('\uFEFF'));
        if (document.Problems.Count > 0)
        {
            return new SiteReading(fileName, null, null, document.Problems);
        }

        var values = SiteValues.From(document);
        if (values.Problems.Count > 0)
        {
            return new SiteReading(fileName, null, null, values.Problems);
        }

        RamSite site = SiteBinder.Bind(values);
        return new SiteReading(fileName, site, values, [.. Contradictions.Of(site, values)]);
    }

    private static string Decode(byte[] bytes, string path)
    {
        if (bytes.AsSpan().IndexOf((byte)0) >= 0)
        {
            throw InputException.Of("site.no-text", ("file", path));
        }

        try
        {
            return StrictUtf8.GetString(bytes);
        }
        catch (DecoderFallbackException bad)
        {
            int line = bytes.AsSpan(0, Math.Clamp(bad.Index, 0, bytes.Length)).Count((byte)'\n') + 1;
            throw InputException.Of(bad, "site.no-utf8", ("file", path), ("line", line));
        }
    }
}

/// <summary>A site file as it was read: the site, or what stands in its way.</summary>
public sealed class SiteReading
{
    internal SiteReading(string fileName, RamSite? site, SiteValues? values, IReadOnlyList<SiteProblem> problems)
    {
        FileName = fileName;
        Site = site;
        Values = values;
        Problems = [.. problems.OrderBy(p => p.Line ?? int.MaxValue)];
    }

    /// <summary>The file.</summary>
    public string FileName { get; }

    /// <summary>The site; null when it could not even be put together.</summary>
    public RamSite? Site { get; }

    /// <summary>Mistakes and contradictions, by line.</summary>
    public IReadOnlyList<SiteProblem> Problems { get; }

    internal SiteValues? Values { get; }

    /// <summary>The site, if nothing stands in its way.</summary>
    /// <exception cref="InputException">Something does; the message names it all.</exception>
    public RamSite SiteOrThrow()
    {
        if (Site is { } site && Problems.Count == 0)
        {
            return site;
        }

        throw new InputException(SiteProblem.Summary(FileName, Problems));
    }
}
