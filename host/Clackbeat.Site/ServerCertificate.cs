using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace Clackbeat.Site;

/// <summary>
/// A server's certificate in a file: PEM with its key beside or within, or PFX. A renewed file is taken over within a minute; one that can't be
/// read leaves the old certificate in use.
/// </summary>
public sealed class ServerCertificate
{
    private static readonly TimeSpan LookAgainAfter = TimeSpan.FromMinutes(1);

    private readonly Lock _turn = new();
    private readonly string _path;
    private readonly string? _keyPath;
    private readonly string? _password;
    private X509Certificate2 _current;
    private DateTime _written;
    private DateTime _looked;

    /// <summary>Reads it.</summary>
    /// <param name="path">The certificate, with those that lead to its root.</param>
    /// <param name="keyPath">Its key; null where it stands in the same file.</param>
    /// <param name="password">Password of the key; null for none.</param>
    /// <exception cref="InputException">It can't be read, or has no key.</exception>
    public ServerCertificate(string path, string? keyPath, string? password)
    {
        (_path, _keyPath, _password) = (path, keyPath, password);
        _current = Read();
        (_written, _looked) = (File.GetLastWriteTimeUtc(path), DateTime.UtcNow);
    }

    /// <summary>The certificate that is valid now.</summary>
    public X509Certificate2 Current
    {
        get
        {
            lock (_turn)
            {
                if (DateTime.UtcNow - _looked > LookAgainAfter)
                {
                    Renew();
                }

                return _current;
            }
        }
    }

    private void Renew()
    {
        _looked = DateTime.UtcNow;
        DateTime written = File.GetLastWriteTimeUtc(_path);
        if (written == _written)
        {
            return;
        }

        try
        {
            // Connections may still use the old one, so it is left to the garbage collector.
            _current = Read();
            _written = written;
        }
        catch (InputException)
        {
            // A renewal writes certificate and key one after the other; the next look finds both.
        }
    }

    private X509Certificate2 Read()
    {
        try
        {
            if (Path.GetExtension(_path).ToLowerInvariant() is ".pfx" or ".p12")
            {
                return WithKey(X509CertificateLoader.LoadPkcs12FromFile(_path, _password));
            }

            using X509Certificate2 pem = _password is null
                ? X509Certificate2.CreateFromPemFile(_path, _keyPath ?? _path)
                : X509Certificate2.CreateFromEncryptedPemFile(_path, _password, _keyPath ?? _path);

            // Windows signs only with keys that came out of a PFX.
            return X509CertificateLoader.LoadPkcs12(pem.Export(X509ContentType.Pkcs12), null);
        }
        catch (Exception failure) when (failure is CryptographicException or IOException or UnauthorizedAccessException or ArgumentException)
        {
            throw InputException.Of(failure, "account.no-certificate", ("file", _path), ("why", failure.Message.TrimEnd('.')));
        }
    }

    private X509Certificate2 WithKey(X509Certificate2 certificate) => certificate.HasPrivateKey
        ? certificate
        : throw InputException.Of("account.no-key", ("file", _path));
}
