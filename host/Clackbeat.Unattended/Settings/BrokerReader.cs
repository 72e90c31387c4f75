using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using Clackbeat.Site.Facts;

namespace Clackbeat.Unattended.Settings;

/// <summary>What several tables say of brokers and of certificates.</summary>
internal static class BrokerReader
{
    public const string UsualTopic = "clackbeat/intake";
    private const int Open = 1883;
    private const int Encrypted = 8883;

    /// <summary>The usual port.</summary>
    public static int PortOf(bool tls) => tls ? Encrypted : Open;

    /// <summary>Refuses a topic that nothing can be sent to.</summary>
    public static void RefuseTopic(ConfigDocument document, string table, string topic)
    {
        if (topic.AsSpan().ContainsAny('+', '#'))
        {
            document.Refuse(table, "topic", Fact.Of("config.topic"));
        }
    }

    /// <summary>Path of a file of certificates (PEM) that a key names; null where it is left out.</summary>
    public static string? Certificates(ConfigDocument document, string table, string key, string folder)
    {
        if (document.Text(table, key) is not { } written)
        {
            return null;
        }

        string path = Path.GetFullPath(written, folder);
        try
        {
            var found = new X509Certificate2Collection();
            found.ImportFromPemFile(path);
            if (found.Count > 0)
            {
                return path;
            }
        }
        catch (Exception fault) when (fault is CryptographicException or IOException or UnauthorizedAccessException)
        {
        }

        document.Refuse(table, key, Fact.Of("config.certificate", ("file", path)));
        return null;
    }

    /// <summary>Refuses a password that would travel unencrypted beyond this computer, and an account without one.</summary>
    public static void RefuseOpenPassword(ConfigDocument document, string table, bool isOpen, string? user, Secret? password, string? server)
    {
        if (user is not null && password is null)
        {
            document.Refuse(table, "user", Fact.Of("config.password"));
        }

        if (isOpen && password is not null && server is not ("localhost" or "127.0.0.1" or "::1"))
        {
            document.Refuse(table, "password_env", Fact.Of("config.password-open"));
        }
    }
}
