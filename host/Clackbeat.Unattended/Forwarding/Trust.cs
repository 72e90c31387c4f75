using System.Net.Security;
using System.Security.Cryptography.X509Certificates;

namespace Clackbeat.Unattended.Forwarding;

/// <summary>Which certificates a sender or receiver trusts beside those of the system: the ones in a file, or what they vouch for.</summary>
internal static class Trust
{
    /// <summary>Checks a server's certificate against a file alone.</summary>
    /// <param name="file">Certificates (PEM).</param>
    public static Func<X509Certificate?, SslPolicyErrors, bool> In(string file)
    {
        var trusted = new X509Certificate2Collection();
        trusted.ImportFromPemFile(file);
        return (shown, errors) => shown is not null && (errors & ~SslPolicyErrors.RemoteCertificateChainErrors) == 0 && IsVouchedFor(shown, trusted);
    }

    private static bool IsVouchedFor(X509Certificate shown, X509Certificate2Collection trusted)
    {
        using var server = new X509Certificate2(shown);
        using var chain = new X509Chain();
        chain.ChainPolicy.TrustMode = X509ChainTrustMode.CustomRootTrust;
        chain.ChainPolicy.CustomTrustStore.AddRange(trusted);
        chain.ChainPolicy.RevocationMode = X509RevocationMode.NoCheck;
        return chain.Build(server);
    }
}
