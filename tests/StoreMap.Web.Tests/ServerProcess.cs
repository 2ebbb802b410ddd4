using System.Diagnostics;

namespace StoreMap.Tests;

/// <summary>The real program serving a data folder of its own, as a process that can be killed and started again.</summary>
internal sealed class ServerProcess : IAsyncDisposable
{
    // It answers at once on a quiet machine; a busy one may take its time.
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(3);

    private readonly string program;
    private Process? process;

    public ServerProcess(string? program = null) => (this.program, Port) = (program ?? Program, Ports.Free());

    public int Port { get; }

    public string Url => $"http://localhost:{Port}";

    public string Folder { get; } = Path.Combine(Path.GetTempPath(), "storemap-web-" + Path.GetRandomFileName());

    public static string Program { get; } = Path.Combine(Checkout.Root, "src", "StoreMap.App", "bin", Checkout.Configuration, "net10.0", "storemap.dll");

    /// <summary>Starts a program, by default the one that was built with the tests.</summary>
    public static async Task<ServerProcess> Start(string? program = null)
    {
        var server = new ServerProcess(program);
        await server.Up();
        return server;
    }

    /// <summary>Starts the program and waits until it answers; fails when it ends before that.</summary>
    public async Task Up()
    {
        var started = process = Process.Start(new ProcessStartInfo("dotnet", [program, "serve", "--data", Folder, "--urls", $"http://127.0.0.1:{Port}"]) { RedirectStandardOutput = true, RedirectStandardError = true })!;
        process.OutputDataReceived += (_, _) => { };
        process.ErrorDataReceived += (_, _) => { };
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
        using var client = new HttpClient { BaseAddress = new Uri($"http://127.0.0.1:{Port}") };
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

    public async Task<string> Get(string path)
    {
        using var client = new HttpClient { BaseAddress = new Uri($"http://127.0.0.1:{Port}") };
        return await client.GetStringAsync(path);
    }

    public async Task<byte[]> GetBytes(string path)
    {
        using var client = new HttpClient { BaseAddress = new Uri($"http://127.0.0.1:{Port}") };
        return await client.GetByteArrayAsync(path);
    }

    public async ValueTask DisposeAsync()
    {
        await Kill();
        if (Directory.Exists(Folder)) Directory.Delete(Folder, recursive: true);
    }
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
