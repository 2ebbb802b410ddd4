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
                Directory.CreateDirectory(folder);
                var beside = Path.Combine(folder, "." + Path.GetFileName(path) + ".part");
                made.Add(beside);
                File.WriteAllBytes(beside, bytes);
            }

            for (var i = 0; i < files.Count; i++) File.Move(made[i], files[i].Path, overwrite: true);
        }
        finally
        {
            foreach (var beside in made.Where(File.Exists)) File.Delete(beside);
        }

        return [.. files.Select(f => f.Path)];
    }
}
