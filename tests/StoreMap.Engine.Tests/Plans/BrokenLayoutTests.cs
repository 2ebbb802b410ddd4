using System.Text.Json;
using StoreMap.Plans;

namespace StoreMap.Tests.Plans;

/// <summary>Every broken layout of <c>Cases/layouts/broken</c> gives exactly the problems that <c>expected.json</c> lists for it.</summary>
public class BrokenLayoutTests
{
    private const string Folder = "layouts/broken";

    public static TheoryData<string> Files =>
        [.. Directory.GetFiles(CaseFiles.PathOf(Folder), "*.layout.json").Select(f => Path.GetFileName(f)).Order(StringComparer.Ordinal)];

    private static IReadOnlyList<Problem> ProblemsOf(string file, out LayoutDocument? document)
    {
        using var stream = File.OpenRead(CaseFiles.PathOf($"{Folder}/{file}"));
        return LayoutDocument.TryRead(stream, file, out document);
    }

    private static string Line(Problem p) => $"{p.Severity.Kebab()} {p.Rule} | {p.Element} | {p.Field} | {p.Value}";

    [Theory]
    [MemberData(nameof(Files))]
    public void TryRead_BrokenLayout_GivesTheExpectedProblems(string file)
    {
        using var expected = JsonDocument.Parse(CaseFiles.Text($"{Folder}/expected.json"));
        var wanted = expected.RootElement.GetProperty(file).EnumerateArray().Select(e => e.GetString()!);
        var problems = ProblemsOf(file, out var document);
        Assert.Equal(string.Join('\n', wanted), string.Join('\n', problems.Select(Line)));
        Assert.Null(document);
        Assert.All(problems, p =>
        {
            Assert.Equal(file, p.File);
            Assert.InRange(p.Message.Length, 20, 800);
            Assert.DoesNotContain("Exception", p.Message, StringComparison.Ordinal);
        });
    }

    [Fact]
    public void Expected_EveryEntry_HasItsFile()
    {
        using var expected = JsonDocument.Parse(CaseFiles.Text($"{Folder}/expected.json"));
        Assert.Equal(Files.Select(f => f.Data), expected.RootElement.EnumerateObject().Select(p => p.Name).Order(StringComparer.Ordinal));
        Assert.True(Files.Count >= 20);
    }
}
