using System.CommandLine;
using System.Net;
using Clackbeat.Site;
using Clackbeat.Watch.Accounts;
using Clackbeat.Watch.Web;

namespace Clackbeat.Commands.Overview;

/// <summary>The options that say from where the page can be reached, and by whom.</summary>
internal sealed class ReachOptions
{
    private const int UsualPort = 8080;

    // A password on the command line could be seen by everybody on the computer.
    private const string KeyPassword = "CLACKBEAT_CERTIFICATE_PASSWORD";

    private readonly Option<int?> _http = new("--http") { Description = $"Serve the page on this port; without a number {UsualPort}", HelpName = "PORT", Arity = ArgumentArity.ZeroOrOne };
    private readonly Option<string?> _accounts = new("--accounts") { Description = "Ask everybody to sign in; 'overview account' makes the file", HelpName = "FILE" };
    private readonly Option<string?> _certificate = new("--certificate") { Description = $"Serve other computers too, over TLS with this certificate, PEM or PFX; a password of its key is read from {KeyPassword}", HelpName = "FILE" };
    private readonly Option<string?> _key = new("--key") { Description = "Key of a PEM certificate, where it isn't in the same file", HelpName = "FILE" };
    private readonly Option<string?> _proxy = new("--behind-proxy") { Description = "Serve other computers through a reverse proxy with TLS at this address", HelpName = "ADDRESS" };
    private readonly Option<string?> _name = new("--name") { Description = "Name by which other computers call the page, where the certificate doesn't say it", HelpName = "HOST" };

    /// <summary>Adds them.</summary>
    public void AddTo(Command command)
    {
        foreach (Option option in new Option[] { _http, _accounts, _certificate, _key, _proxy, _name })
        {
            command.Add(option);
        }
    }

    /// <summary>Whether the page is to be served.</summary>
    public bool IsAsked(ParseResult line) => line.GetResult(_http) is { Implicit: false };

    /// <summary>Who may come; null where nobody has to sign in.</summary>
    public AccountFile? Accounts(ParseResult line) => line.GetValue(_accounts) is { } file ? new AccountFile(file) : null;

    /// <summary>From where.</summary>
    public PageReach Reach(ParseResult line)
    {
        (string? certificate, string? proxy, string? name) = (line.GetValue(_certificate), line.GetValue(_proxy), line.GetValue(_name));
        if ((certificate is not null && proxy is not null) || (proxy is not null && name is null))
        {
            throw InputException.Of("account.one-way");
        }

        return new PageReach(line.GetValue(_http) ?? UsualPort)
        {
            Certificate = certificate is null ? null : new ServerCertificate(certificate, line.GetValue(_key), Environment.GetEnvironmentVariable(KeyPassword)),
            Proxy = proxy is null ? null : IPAddress.TryParse(proxy, out IPAddress? address) ? address : throw InputException.Of("account.no-address", ("text", proxy)),
            PublicName = name,
        };
    }
}
