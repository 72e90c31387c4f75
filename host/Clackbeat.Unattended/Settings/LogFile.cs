using Clackbeat.Recording.Link;
using Clackbeat.Season.Schedule;
using Clackbeat.Season.Store;
using Clackbeat.Site;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Files;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Unattended.Settings;

/// <summary>Reads the file that tells an unattended log what to do; paths in it are relative to its own folder.</summary>
public static class LogFile
{
    /// <summary>The commented file that 'clackbeat log new' writes.</summary>
    public static string Template
    {
        get
        {
            using var reader = new StreamReader(typeof(LogFile).Assembly.GetManifestResourceStream("log-template.toml")!);
            return reader.ReadToEnd();
        }
    }

    /// <summary>Reads a file.</summary>
    /// <param name="path">The file.</param>
    /// <exception cref="InputException">It is missing, or something in it can't stand; every mistake is named with its line.</exception>
    public static LogSettings Load(string path)
    {
        if (!File.Exists(path))
        {
            throw InputException.Of("logging.no-file", ("file", path));
        }

        return Parse(SmallFile.ReadText(path, Fact.Of("input.a-log-file")), path, Path.GetDirectoryName(Path.GetFullPath(path))!);
    }

    /// <summary>Reads a text.</summary>
    /// <param name="text">The content.</param>
    /// <param name="name">The name messages show.</param>
    /// <param name="folder">What relative paths start from.</param>
    /// <exception cref="InputException">Something in it can't stand.</exception>
    public static LogSettings Parse(string text, string name, string folder)
    {
        var document = ConfigDocument.Of(text, name);
        var settings = new LogSettings
        {
            Store = StorePlace(document.Text("log", "store"), folder),
            Folder = Path.GetFullPath(document.Text("log", "folder") ?? "log", folder),
            Every = Span(document, "log", "every", TimeSpan.FromMinutes(15), 1, 86_400),
            Length = Span(document, "log", "length", TimeSpan.FromSeconds(60), 1, 3600),
            Units = document.Choice("log", "units", Units.Metric, ("metric", Units.Metric), ("us", Units.Us)),
            LookIn = document.Texts("log", "look_in"),
            Between = Between(document),
            Disk = Disk(document),
            Alerts = AlertReader.Read(document, folder),
            Forward = ForwardReader.Read(document, folder),
            Rams = Rams(document, folder),
        };
        if (settings.Length >= settings.Every)
        {
            document.Refuse("log", "length", Fact.Of("config.length"));
        }

        document.Close();
        return settings;
    }

    // A server's address is no path and goes to the store as it is written.
    internal static string StorePlace(string? written, string folder) =>
        written is not null && SeasonStores.IsServer(written)
        ? written
        : Path.GetFullPath(written ?? "season.db", folder);

    private static BetweenSettings Between(ConfigDocument document)
    {
        var usual = new BetweenSettings();
        return new BetweenSettings
        {
            Watch = document.Flag("between", "watch", usual.Watch),
            ExtraADay = document.Integer("between", "extra_a_day", usual.ExtraADay, 0, 1000),
            Limits = new ChangeLimits(
                document.Quantity("between", "rate_change", QuantityKind.Share, usual.Limits.RateShare, 0.01, 10),
                document.Quantity("between", "peak_change", QuantityKind.Share, usual.Limits.PeakShare, 0.01, 10)),
        };
    }

    private static DiskSettings Disk(ConfigDocument document)
    {
        var usual = new DiskSettings();
        return new DiskSettings
        {
            MostBytes = document.Bytes("disk", "most", usual.MostBytes),
            LeastFreeBytes = document.Bytes("disk", "least_free", usual.LeastFreeBytes),
            BaselineDays = document.Integer("disk", "baseline_days", usual.BaselineDays, 0, 3660),
            AroundAlert = Span(document, "disk", "around_alert", usual.AroundAlert, 0, 30 * 86_400),
        };
    }

    private static List<RamSettings> Rams(ConfigDocument document, string folder)
    {
        var rams = new List<RamSettings>();
        int blocks = document.Blocks("ram");
        if (blocks == 0)
        {
            document.Refuse("ram", "site", Fact.Of("config.no-ram"));
        }

        for (int block = 0; block < blocks; block++)
        {
            if (Ram(document, block, folder) is { } ram)
            {
                rams.Add(ram);
            }
        }

        foreach (string twice in rams.GroupBy(r => FolderName.Of(r.Site.Name)).Where(g => g.Count() > 1).Select(g => g.First().Site.Name))
        {
            document.Refuse("ram", "site", Fact.Of("config.two-rams", ("name", twice)));
        }

        return rams;
    }

    private static RamSettings? Ram(ConfigDocument document, int block, string folder)
    {
        string? site = document.Text("ram", "site", block);
        string? port = document.Text("ram", "port", block);
        string? logger = document.Text("ram", "logger", block)?.ToLowerInvariant();
        int baud = document.Integer("ram", "baud", SerialLine.UsualBaud, 300, 4_000_000, block);
        if (port is null && logger is null)
        {
            document.Refuse("ram", "port", Fact.Of("config.ram-port"), block);
        }

        if (site is null)
        {
            document.Refuse("ram", "site", Fact.Of("config.ram-site"), block);
            return null;
        }

        try
        {
            string path = Path.GetFullPath(site, folder);
            return new RamSettings(path, SiteFile.Load(path), port, logger, baud);
        }
        catch (InputException refused)
        {
            document.Refuse("ram", "site", refused.What, block);
            return null;
        }
    }

    private static TimeSpan Span(ConfigDocument document, string table, string key, TimeSpan otherwise, double lowS, double highS) =>
        TimeSpan.FromSeconds(document.Quantity(table, key, QuantityKind.Duration, otherwise.TotalSeconds, lowS, highS));
}
