using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace Clackbeat.Unattended.Tests.Bench;

/// <summary>A certificate of this computer that nobody vouches for, with its key, as files.</summary>
internal static class TestCertificate
{
    public static void Write(string certificate, string? key = null)
    {
        using var pair = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var request = new CertificateRequest("CN=localhost", pair, HashAlgorithmName.SHA256);
        var names = new SubjectAlternativeNameBuilder();
        names.AddDnsName("localhost");
        request.CertificateExtensions.Add(names.Build());
        using X509Certificate2 made = request.CreateSelfSigned(DateTimeOffset.UtcNow.AddDays(-1), DateTimeOffset.UtcNow.AddDays(1));
        File.WriteAllText(certificate, made.ExportCertificatePem());
        if (key is not null)
        {
            File.WriteAllText(key, pair.ExportPkcs8PrivateKeyPem());
        }
    }
}
