using System.Diagnostics;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace StoreMap.Tests;

/// <summary>The real program serving a data folder of its own, as a process that can be killed and started again.</summary>
internal sealed class ServerProcess : IAsyncDisposable
{
    // It answers at once on a quiet machine; a busy one may take its time.
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(3);

    private readonly string program;
    private readonly string? certificate;
    private Process? process;

    private ServerProcess(string? program, bool others)
    {
        (this.program, Port) = (program ?? Program, Ports.Free());
        if (!others) return;
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        using var made = new CertificateRequest("CN=localhost", key, HashAlgorithmName.SHA256).CreateSelfSigned(DateTimeOffset.UtcNow.AddDays(-1), DateTimeOffset.UtcNow.AddDays(1));
        certificate = Folder + ".pem";
        File.WriteAllText(certificate, $"{made.ExportCertificatePem()}\n{key.ExportPkcs8PrivateKeyPem()}\n");
    }

    public int Port { get; }

    public string Url => $"{Scheme}://localhost:{Port}";

    public string Folder { get; } = Path.Combine(Path.GetTempPath(), "storemap-web-" + Path.GetRandomFileName());

    public static string Program { get; } = Path.Combine(Checkout.Root, "src", "StoreMap.App", "bin", Checkout.Configuration, "net10.0", "storemap.dll");

    private string Scheme => certificate is null ? "http" : "https";

    /// <summary>Starts a program, by default the one that was built with the tests.</summary>
    /// <param name="program">The program.</param>
    /// <param name="others">True to serve other machines too, which takes HTTPS and a sign-in.</param>
    public static async Task<ServerProcess> Start(string? program = null, bool others = false)
    {
        var server = new ServerProcess(program, others);
        await server.Up();
        return server;
    }

    /// <summary>Starts the program and waits until it answers; fails when it ends before that.</summary>
    public async Task Up()
    {
        string[] words = [program, "serve", "--data", Folder, "--urls", $"{Scheme}://{(certificate is null ? "127.0.0.1" : "0.0.0.0")}:{Port}", .. certificate is null ? Array.Empty<string>() : ["--certificate", certificate]];
        var started = process = Process.Start(new ProcessStartInfo("dotnet", words) { RedirectStandardOutput = true, RedirectStandardError = true })!;
        process.OutputDataReceived += (_, _) => { };
        process.ErrorDataReceived += (_, _) => { };
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
        using var client = Client();
        for (var clock = Stopwatch.StartNew(); !await Answers(client); await Task.Delay(25))
        {
            if (started.HasExited || clock.Elapsed > Patience) throw new InvalidOperationException("the server does not answer");
        }
    }

    private static async Task<bool> Answers(HttpClient client)
    {
        try
        {
            using var answer = await client.GetAsync("/api/session");
            return answer.IsSuccessStatusCode;
        }
        catch (HttpRequestException)
        {
            return false;
        }
    }

    /// <summary>Kills the program as a power cut would.</summary>
    public async Task Kill()
    {
        if (process is null) return;
        process.Kill(entireProcessTree: true);
        await process.WaitForExitAsync();
        process.Dispose();
        process = null;
    }

    /// <summary>Adds someone who may sign in.</summary>
    public async Task Admit(string name, string role, string passphrase)
    {
        using var adding = Process.Start(new ProcessStartInfo("dotnet", [program, "person", name, "--role", role, "--data", Folder]) { RedirectStandardInput = true, RedirectStandardOutput = true, RedirectStandardError = true })!;
        await adding.StandardInput.WriteLineAsync(passphrase);
        await adding.WaitForExitAsync();
        if (adding.ExitCode != 0) throw new InvalidOperationException($"{name} was not added");
    }

    public async Task<string> Get(string path)
    {
        using var client = Client();
        return await client.GetStringAsync(path);
    }

    public async Task<byte[]> GetBytes(string path)
    {
        using var client = Client();
        return await client.GetByteArrayAsync(path);
    }

    public async ValueTask DisposeAsync()
    {
        await Kill();
        if (Directory.Exists(Folder)) Directory.Delete(Folder, recursive: true);
        if (certificate is not null) File.Delete(certificate);
    }

    // Its certificate is one of our own making, which nobody vouches for.
    private HttpClient Client() => new(new HttpClientHandler { ServerCertificateCustomValidationCallback = HttpClientHandler.DangerousAcceptAnyServerCertificateValidator }) { BaseAddress = new Uri($"{Scheme}://127.0.0.1:{Port}") };
}

/// <summary>The checkout that the tests were built from.</summary>
internal static class Checkout
{
    public static string Root { get; } = FindRoot();

    public static string Configuration { get; } = new DirectoryInfo(AppContext.BaseDirectory).Parent!.Name;

    private static string FindRoot()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder!.FullName, "StoreMap.sln"))) folder = folder.Parent;
        return folder.FullName;
    }
}
