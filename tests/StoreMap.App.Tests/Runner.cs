using StoreMap.App.Shell;

namespace StoreMap.Tests;

/// <summary>Runs the program in process, in a folder of its own that goes when the test ends.</summary>
internal sealed class Runner : IDisposable
{
    public Runner()
    {
        Folder = Path.Combine(Path.GetTempPath(), "storemap-test-" + Path.GetRandomFileName());
        Directory.CreateDirectory(Folder);
    }

    public string Folder { get; }

    public string Out { get; private set; } = "";

    public string Error { get; private set; } = "";

    public static string Root { get; } = FindRoot();

    public static string Demo(string name) => Path.Combine(Root, "layouts", "tern-hollow", name);

    public string PathOf(string name) => Path.Combine(Folder, name);

    public string Write(string name, string text)
    {
        File.WriteAllText(PathOf(name), text);
        return PathOf(name);
    }

    /// <summary>Runs a command line and keeps what it printed.</summary>
    public int Run(params string[] args) => RunTyping("", args);

    /// <summary>The same with something typed at it.</summary>
    public int RunTyping(string typed, params string[] args)
    {
        using var input = new StringReader(typed);
        using var output = new StringWriter { NewLine = "\n" };
        using var error = new StringWriter { NewLine = "\n" };
        var code = new Host(input, output, error, showProgress: false).Run(args, TestContext.Current.CancellationToken);
        (Out, Error) = (output.ToString(), error.ToString());
        return code;
    }

    /// <summary>Files below the folder, by their relative names.</summary>
    public string[] Files() => [.. Directory.GetFiles(Folder, "*", SearchOption.AllDirectories).Select(f => Path.GetRelativePath(Folder, f)).Order(StringComparer.Ordinal)];

    public void Dispose() => Directory.Delete(Folder, recursive: true);

    private static string FindRoot()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder!.FullName, "StoreMap.sln"))) folder = folder.Parent;
        return folder.FullName;
    }
}
