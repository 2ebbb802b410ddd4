namespace StoreMap.App.Shell;

/// <summary>Reads whole input files; one that cannot be read is refused like any other bad input.</summary>
internal static class InputFile
{
    /// <summary>No layout, survey or record comes near this size.</summary>
    public const long LargestBytes = 64L << 20;

    public static MemoryStream Open(string path)
    {
        try
        {
            var length = new FileInfo(path).Length;
            return length > LargestBytes
                ? throw Refused(path, "file-size", $"The file has {length >> 20} MiB; at most {LargestBytes >> 20} MiB are read. Is it the right file?")
                : new MemoryStream(File.ReadAllBytes(path), writable: false);
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException)
        {
            throw Refused(path, "file-exists", "There is no such file. Check the name and the folder.");
        }
        catch (UnauthorizedAccessException)
        {
            throw Refused(path, "file-readable", "The file cannot be read: it is a folder, or you may not open it.");
        }
    }

    public static RefusedInputException Refused(string path, string rule, string message) =>
        new([new Problem(Severity.Error, path, null, null, null, rule, message)]);
}
