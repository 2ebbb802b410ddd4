namespace StoreMap.Tests.Rules;

/// <summary>The checkout that the tests were built from, for rules about the sources themselves.</summary>
internal static class SourceTree
{
    /// <summary>The folder that holds StoreMap.sln.</summary>
    public static string Root { get; } = FindRoot();

    /// <summary>Full path of a file or folder of the checkout.</summary>
    public static string PathOf(params string[] parts) => Path.Combine([Root, .. parts]);

    private static string FindRoot()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder!.FullName, "StoreMap.sln"))) folder = folder.Parent;
        return folder.FullName;
    }
}
