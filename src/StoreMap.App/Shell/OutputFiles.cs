namespace StoreMap.App.Shell;

/// <summary>Files to be written together: each beside its place first, then all renamed, so that nothing half-written is left.</summary>
internal sealed class OutputFiles
{
    private readonly List<(string Path, byte[] Bytes)> files = [];

    /// <summary>Adds a file.</summary>
    public void Add(string path, byte[] bytes) => files.Add((path, bytes));

    /// <summary>Writes all of them.</summary>
    /// <returns>The paths written, in the order added.</returns>
    public IReadOnlyList<string> Commit(CancellationToken cancel)
    {
        var made = new List<string>();
        try
        {
            foreach (var (path, bytes) in files)
            {
                cancel.ThrowIfCancellationRequested();
                var folder = Path.GetDirectoryName(Path.GetFullPath(path))!;
                var beside = Path.Combine(folder, "." + Path.GetFileName(path) + ".part");
                Try(path, () =>
                {
                    Directory.CreateDirectory(folder);
                    made.Add(beside);
                    File.WriteAllBytes(beside, bytes);
                });
            }

            for (var i = 0; i < files.Count; i++) Try(files[i].Path, () => File.Move(made[i], files[i].Path, overwrite: true));
        }
        finally
        {
            foreach (var beside in made.Where(File.Exists)) File.Delete(beside);
        }

        return [.. files.Select(f => f.Path)];
    }

    // The system's own words name neither our file nor a way out.
    private static void Try(string path, Action write)
    {
        try
        {
            write();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new IOException($"{path} cannot be written. Give --out a folder (for a report, a file) in a place where you may write, and see that the disk is not full.", e);
        }
    }
}
