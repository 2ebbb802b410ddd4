using StoreMap.Plans;

namespace StoreMap.App.Shell;

/// <summary>Loads the store that a verb works on.</summary>
internal static class Store
{
    /// <summary>The layout argument of most verbs.</summary>
    public static LayoutDocument Load(string path, Session session)
    {
        using var stream = InputFile.Open(path);
        var document = LayoutDocument.Read(stream, path);
        session.Warn(document.Warnings);
        return document;
    }
}
