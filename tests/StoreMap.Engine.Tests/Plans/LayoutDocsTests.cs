using System.Text.Json;
using System.Text.RegularExpressions;
using Json.Schema;
using StoreMap.Plans;
using StoreMap.Tests.Rules;

namespace StoreMap.Tests.Plans;

/// <summary>docs/formats.md and docs/schemas/layout.schema.json, read by a JSON Schema library, agree with what the reader does.</summary>
public class LayoutDocsTests
{
    private static readonly string Formats = File.ReadAllText(SourceTree.PathOf("docs", "formats.md"));
    private static readonly JsonSchema Schema = JsonSchema.FromFile(SourceTree.PathOf("docs", "schemas", "layout.schema.json"));
    private static readonly JsonDocumentOptions Lenient = new() { CommentHandling = JsonCommentHandling.Skip, AllowTrailingCommas = true };

    private static bool IsValid(string text)
    {
        using var json = JsonDocument.Parse(text, Lenient);
        return Schema.Evaluate(json.RootElement).IsValid;
    }

    public static TheoryData<string> GoodFiles =>
        [.. Directory.GetFiles(CaseFiles.PathOf("layouts/good"), "*.layout.json").Select(f => Path.GetFileName(f)).Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(GoodFiles))]
    public void Schema_GoodLayout_IsValid(string file) => Assert.True(IsValid(CaseFiles.Text($"layouts/good/{file}")));

    [Fact]
    public void Schema_LayoutOfACaseList_IsValid()
    {
        using var list = new MemoryStream("tag,kind,lengths,circuit,system,refrigerant\n1,,12-12,A1/A2,A,R-448A\nW,walk-in,10x14,A1,,\nS,self-contained,6,,,R-290\n"u8.ToArray());
        Assert.True(IsValid(LayoutWriter.Text(CaseList.Read(list).Root)));
    }

    [Theory]
    [InlineData("bad-ids")]
    [InlineData("missing-fields")]
    [InlineData("newer-version")]
    [InlineData("no-format")]
    [InlineData("no-number")]
    [InlineData("other-format")]
    [InlineData("ring-two-points")]
    [InlineData("unknown-unit")]
    [InlineData("wrong-shapes")]
    [InlineData("wrong-words")]
    public void Schema_BrokenInItself_IsInvalid(string file) => Assert.False(IsValid(CaseFiles.Text($"layouts/broken/{file}.layout.json")));

    // The schema describes exactly the fields that the reader knows.
    [Fact]
    public void Schema_Fields_AreThoseTheReaderKnows()
    {
        using var schema = JsonDocument.Parse(File.ReadAllText(SourceTree.PathOf("docs", "schemas", "layout.schema.json")));
        static IEnumerable<string> Names(JsonElement owner) => owner.GetProperty("properties").EnumerateObject().Select(p => p.Name).Order(StringComparer.Ordinal);
        Assert.Equal(KnownFields.Of(null).Order(StringComparer.Ordinal), Names(schema.RootElement));
        foreach (var list in LayoutLists.All)
        {
            var items = schema.RootElement.GetProperty("properties").GetProperty(list).GetProperty("items").GetProperty("$ref").GetString()!;
            Assert.Equal(KnownFields.Of(list).Order(StringComparer.Ordinal), Names(schema.RootElement.GetProperty("$defs").GetProperty(items[(items.LastIndexOf('/') + 1)..])));
        }
    }

    // Every rule that the source of this room names stands in the table, and the other way round.
    [Fact]
    public void Formats_Rules_AreThoseOfTheSource()
    {
        var source = string.Concat(new[] { "Layouts", "Rules", "CaseLists" }
            .SelectMany(f => Directory.GetFiles(SourceTree.PathOf("src", "StoreMap.Engine", "Plans", f), "*.cs"))
            .Append(SourceTree.PathOf("src", "StoreMap.Engine", "Plans", "InputText.cs")).Select(File.ReadAllText));
        var documented = Regex.Matches(Formats, "`([a-z]+(-[a-z]+)*)`").Select(m => m.Groups[1].Value).ToHashSet();
        var named = Regex.Matches(source, @"(?:Error|Warn|Refuse|Refused|Refusal)\([^;]*?""([a-z]+(?:-[a-z]+)+)"",\s*\n?\s*\$?""").Select(m => m.Groups[1].Value).Distinct().ToList();
        Assert.True(named.Count > 40, $"only {named.Count} rules found");
        Assert.Equal([], named.Where(r => !documented.Contains(r)));

        var table = Formats[Formats.IndexOf("### Rules", StringComparison.Ordinal)..Formats.IndexOf("## Case list", StringComparison.Ordinal)];
        var rows = table.Split('\n').Where(l => l.StartsWith("| `", StringComparison.Ordinal)).SelectMany(l => Regex.Matches(l.Split('|')[1], "`([a-z-]+)`")).Select(m => m.Groups[1].Value);
        string[] composed = ["front-on-outline", "back-on-outline", "front-off-outline", "back-off-outline"];
        Assert.Equal([], rows.Except(composed).Where(r => !source.Contains($"\"{r}\"", StringComparison.Ordinal)));
    }
}
