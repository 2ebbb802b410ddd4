using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace StoreMap.App.Serving;

/// <summary>The certificate of an HTTPS address.</summary>
internal static class ServerCertificate
{
    /// <summary>Loads a PFX, or a PEM with certificate and key.</summary>
    /// <exception cref="RefusedInputException">It is not there, can't be read, or has no key.</exception>
    public static X509Certificate2 Load(string file, string? passphrase)
    {
        if (!File.Exists(file)) throw Refused(file, "There is no such file. Name a PFX, or a PEM with certificate and key.");
        try
        {
            var certificate = Path.GetExtension(file).ToUpperInvariant() is ".PFX" or ".P12"
                ? X509CertificateLoader.LoadPkcs12FromFile(file, passphrase)
                : X509Certificate2.CreateFromPemFile(file);
            return certificate.HasPrivateKey ? certificate : throw Refused(file, "It holds no key. Put certificate and key into one file.");
        }
        catch (CryptographicException)
        {
            throw Refused(file, "It can't be read as a certificate with its key. Name a PFX with its passphrase in STOREMAP_CERTIFICATE_PASSPHRASE, or a PEM with certificate and key.");
        }
    }

    private static RefusedInputException Refused(string file, string message) =>
        new([new Problem(Severity.Error, file, "--certificate", null, null, "serve-certificate", message)]);
}
