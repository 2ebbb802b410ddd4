namespace StoreMap.Tests;

/// <summary>Finds the data files of <c>Cases/</c> beside the test assembly.</summary>
internal static class CaseFiles
{
    /// <summary>Full path of a case file, such as <c>plans/plan_a_plan.json</c>.</summary>
    public static string PathOf(string name) => Path.Combine(AppContext.BaseDirectory, "Cases", name);

    /// <summary>All text of a case file.</summary>
    public static string Text(string name) => File.ReadAllText(PathOf(name));

    /// <summary>Lines of a case file, without the empty last one.</summary>
    public static string[] Lines(string name) => File.ReadAllLines(PathOf(name));
}
