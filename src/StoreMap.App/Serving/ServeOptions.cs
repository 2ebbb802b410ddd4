using System.Net;

namespace StoreMap.App.Serving;

/// <summary>How the server is reached, and what that asks of those who reach it.</summary>
internal sealed record ServeOptions
{
    public const string DefaultUrl = "http://127.0.0.1:5080";

    /// <summary>The data folder.</summary>
    public required string DataFolder { get; init; }

    /// <summary>Address to listen on.</summary>
    public required Uri Url { get; init; }

    /// <summary>A certificate with its key, PFX or PEM; null for plain HTTP.</summary>
    public string? Certificate { get; init; }

    /// <summary>Host name under which a proxy on this machine offers the server over HTTPS; null without one.</summary>
    public string? ProxyHost { get; init; }

    /// <summary>Passphrase of a PFX file; null for none.</summary>
    public string? CertificatePassphrase { get; init; }

    /// <summary>True when only this machine can reach it.</summary>
    public bool Loopback => Url.Host == "localhost" || (IPAddress.TryParse(Url.Host.Trim('[', ']'), out var address) && IPAddress.IsLoopback(address));

    /// <summary>Everyone but a person on this very machine signs in.</summary>
    public bool SignIn => !Loopback || ProxyHost is not null;

    /// <summary>The options of a command line.</summary>
    /// <exception cref="RefusedInputException">They would let others in without a sign-in or in the clear.</exception>
    public static ServeOptions Of(string dataFolder, string url, string? certificate, string? proxyHost, string? passphrase)
    {
        if (!Uri.TryCreate(url, UriKind.Absolute, out var uri) || uri.Scheme is not ("http" or "https") || uri.AbsolutePath != "/")
            throw Refused("--urls", url, "serve-url", $"{url} is no address to listen on; write one such as {DefaultUrl} or https://0.0.0.0:5443.");
        var options = new ServeOptions { DataFolder = dataFolder, Url = uri, Certificate = certificate, ProxyHost = proxyHost, CertificatePassphrase = passphrase };
        if (!options.Loopback && (uri.Scheme != "https" || certificate is null))
        {
            throw Refused("--urls", url, "serve-https",
                "Others can reach this address, so it needs HTTPS: an https address with --certificate FILE, or a proxy on this machine with --proxy HOST and a loopback address. Without HTTPS a browser allows neither offline work nor lasting storage.");
        }

        if (uri.Scheme == "https" && certificate is null) throw Refused("--certificate", null, "serve-certificate", "An https address needs --certificate FILE: a PFX, or a PEM with certificate and key.");
        if (certificate is not null && uri.Scheme != "https") throw Refused("--urls", url, "serve-certificate", "A certificate is given but the address is plain http; write https.");
        return options;
    }

    private static RefusedInputException Refused(string option, string? value, string rule, string message) =>
        new([new Problem(Severity.Error, null, option, null, value, rule, message)]);
}
