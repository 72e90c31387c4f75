using System.Net;
using Clackbeat.Site;
using Clackbeat.Site.Facts;

namespace Clackbeat.Unattended.Settings;

/// <summary>Reads the file that says which far computers may send bursts, and by which way; paths in it are relative to its own folder.</summary>
public static class IntakeFile
{
    private const int UsualPort = 8443;

    /// <summary>The commented file that 'clackbeat log intake new' writes.</summary>
    public static string Template
    {
        get
        {
            using var reader = new StreamReader(typeof(IntakeFile).Assembly.GetManifestResourceStream("intake-template.toml")!);
            return reader.ReadToEnd();
        }
    }

    /// <summary>Reads a file.</summary>
    /// <param name="path">The file.</param>
    /// <exception cref="InputException">It is missing, or something in it can't stand; every mistake is named with its line.</exception>
    public static IntakeSettings Load(string path) => File.Exists(path)
        ? Parse(SmallFile.ReadText(path, Fact.Of("input.a-log-file")), path, Path.GetDirectoryName(Path.GetFullPath(path))!)
        : throw InputException.Of("intake.no-file", ("file", path));

    /// <summary>Reads a text.</summary>
    /// <param name="text">The content.</param>
    /// <param name="name">The name messages show.</param>
    /// <param name="folder">What relative paths start from.</param>
    public static IntakeSettings Parse(string text, string name, string folder)
    {
        var document = ConfigDocument.Of(text, name);
        var settings = new IntakeSettings(
            LogFile.StorePlace(document.Text("intake", "store"), folder), Web(document, folder), Broker(document, folder), Sites(document));
        if (settings.Web is null && settings.Broker is null)
        {
            document.Refuse("https", "port", Fact.Of("config.intake-way"));
        }

        document.Close();
        return settings;
    }

    private static IntakeWeb? Web(ConfigDocument document, string folder)
    {
        const string Table = "https";
        int port = document.Integer(Table, "port", UsualPort, 0, 65_535);
        string? address = document.Text(Table, "address");
        string? certificate = BrokerReader.Certificates(document, Table, "certificate", folder);
        string? key = document.Text(Table, "key") is { } written ? Path.GetFullPath(written, folder) : null;
        IPAddress listen = IPAddress.IPv6Any;
        if (address is not null && !IPAddress.TryParse(address, out listen!))
        {
            document.Refuse(Table, "address", Fact.Of("config.address"));
        }

        return document.Has(Table) ? new IntakeWeb(listen, port, certificate, key) : null;
    }

    private static IntakeBroker? Broker(ConfigDocument document, string folder)
    {
        const string Table = "mqtt";
        string? server = document.Text(Table, "server");
        bool tls = document.Flag(Table, "tls", true);
        int port = document.Integer(Table, "port", BrokerReader.PortOf(tls), 1, 65_535);
        string topic = (document.Text(Table, "topic") ?? BrokerReader.UsualTopic).Trim('/');
        string client = document.Text(Table, "client") ?? "clackbeat-intake";
        string? user = document.Text(Table, "user");
        var password = Secret.In(document, Table, "password", folder);
        string? trusted = BrokerReader.Certificates(document, Table, "trusted", folder);
        if (!document.Has(Table))
        {
            return null;
        }

        if (server is null)
        {
            document.Refuse(Table, "server", Fact.Of("config.broker"));
        }

        BrokerReader.RefuseTopic(document, Table, topic);
        BrokerReader.RefuseOpenPassword(document, Table, !tls, user, password, server);
        return new IntakeBroker(new BrokerPlace(server ?? "", port, tls, topic), client, user, password, trusted);
    }

    private static Dictionary<string, IntakeSite> Sites(ConfigDocument document)
    {
        var sites = new Dictionary<string, IntakeSite>(StringComparer.Ordinal);
        int blocks = document.Blocks("site");
        if (blocks == 0)
        {
            document.Refuse("site", "name", Fact.Of("config.no-site"));
        }

        for (int block = 0; block < blocks; block++)
        {
            string name = document.Text("site", "name", block) ?? "";
            var site = new IntakeSite(name, document.Text("site", "secret_hash", block) ?? "", document.Texts("site", "rams", block));
            if (!SiteName.IsOne(name))
            {
                document.Refuse("site", "name", Fact.Of("config.site-name"), block);
            }
            else if (!sites.TryAdd(name, site))
            {
                document.Refuse("site", "name", Fact.Of("config.two-sites", ("name", name)), block);
            }

            if (site.Rams.Count == 0)
            {
                document.Refuse("site", "rams", Fact.Of("config.site-rams"), block);
            }
        }

        return sites;
    }
}
