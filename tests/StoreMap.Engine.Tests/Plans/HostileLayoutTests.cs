using System.Text;
using CsCheck;
using StoreMap.Plans;

namespace StoreMap.Tests.Plans;

/// <summary>No text makes the reader crash, hang or fill the memory.</summary>
public class HostileLayoutTests
{
    private static readonly string Good = CaseFiles.Text("layouts/good/every-field.layout.json");

    private static readonly string[] Splinters =
        ["1e999", "-0", "null", "[]", "{}", "\"\"", "[[0,0]]", "true", "1e-320", "\"\\ud800\"", "{", "]", ",", "\"id\":\"C3\",", "[[0,0],[1,1],[0,0],[1,1]]", "999999999999", "\u0000", "é", "//", "/*"];

    private static IReadOnlyList<Problem> Check(string text)
    {
        var problems = LayoutDocument.TryParse(text, "x", out var document);
        Assert.Equal(document is null, problems.Any(p => p.Severity == Severity.Error));
        return problems;
    }

    private static string Store(string more) =>
        "{\"format\":\"storemap-layout/1\",\"id\":\"h\",\"name\":\"H\",\"units\":\"m\",\"outline\":[[0,0],[50,0],[50,40],[0,40]]," + more + "}";

    // One value of the good layout is replaced by something hostile.
    [Fact]
    public void TryParse_ValueReplaced_NeverThrows() => Gen.Select(Gen.Int[0, Good.Length - 1], Gen.Int[0, 12], Gen.Int[0, Splinters.Length - 1].Select(i => Splinters[i])).Array[1, 3]
        .Sample(cuts =>
        {
            var text = Good;
            foreach (var (at, length, splinter) in cuts) text = text[..Math.Min(at, text.Length)] + splinter + text[Math.Min(at + length, text.Length)..];
            Check(text);
        }, iter: 1000);

    [Fact]
    public void TryRead_AnyBytes_NeverThrows() => Gen.Byte.Array[0, 400].Sample(bytes =>
    {
        using var stream = new MemoryStream(bytes);
        Assert.NotEmpty(LayoutDocument.TryRead(stream, "x", out _));
    }, iter: 500);

    [Fact]
    public void TryRead_FileOverTheLimit_IsRefused()
    {
        using var stream = new MemoryStream(new byte[InputText.MostBytes + 1]);
        Assert.Equal("file-size", Assert.Single(LayoutDocument.TryRead(stream, "x", out _)).Rule);
    }

    [Fact]
    public void TryRead_NoUtf8_IsRefused()
    {
        using var stream = new MemoryStream([.. Encoding.UTF8.GetBytes("{\"name\":\""), 0xE9, (byte)'"', (byte)'}']);
        Assert.Equal("encoding", Assert.Single(LayoutDocument.TryRead(stream, "x", out _)).Rule);
    }

    [Fact]
    public void TryRead_Utf16WithMark_IsRead()
    {
        using var stream = new MemoryStream([.. Encoding.Unicode.GetPreamble(), .. Encoding.Unicode.GetBytes(Good)]);
        Assert.Empty(LayoutDocument.TryRead(stream, "x", out var document));
        Assert.NotNull(document);
    }

    [Fact]
    public void TryParse_TooManyElements_IsRefused()
    {
        var list = string.Join(',', Enumerable.Range(0, LayoutLimits.Elements + 1).Select(i => $"{{\"id\":\"E{i}\",\"at\":[1,0]}}"));
        Assert.Contains(Check(Store($"\"entrances\":[{list}]")), p => p is { Rule: "list-length", Field: "entrances" });
    }

    [Fact]
    public void TryParse_TooManyPoints_IsRefused()
    {
        var ring = string.Join(',', Enumerable.Range(0, LayoutLimits.Points + 1).Select(i => $"[{i % 40},{i % 30}]"));
        Assert.Contains(Check(Store($"\"obstacles\":[{{\"id\":\"G1\",\"outline\":[{ring}]}}]")), p => p is { Rule: "list-length", Element: "G1" });

        var circle = string.Join(',', Enumerable.Range(0, LayoutLimits.Points).Select(i => FormattableString.Invariant($"[{20 + (10 * Math.Cos(i * Math.Tau / LayoutLimits.Points))},{20 + (10 * Math.Sin(i * Math.Tau / LayoutLimits.Points))}]")));
        var many = string.Join(',', Enumerable.Range(0, 26).Select(i => $"{{\"id\":\"G{i}\",\"outline\":[{circle}]}}"));
        Assert.Contains(Check(Store($"\"obstacles\":[{many}]")), p => p.Rule == "all-points");
    }

    [Fact]
    public void TryParse_ThousandsOfProblems_AreCutWithACount()
    {
        var list = string.Join(',', Enumerable.Range(0, 1500).Select(i => "{\"id\":\"bad id\"}"));
        var problems = Check(Store($"\"drops\":[{list}]"));
        Assert.InRange(problems.Count, ProblemList.Most, ProblemList.Most + 10);
        Assert.Equal("more-problems", problems[^1].Rule);
    }

    [Fact]
    public void TryParse_HalfACharacter_IsToldWithItsLine()
    {
        var problem = Assert.Single(Check("{\n\"format\": \"storemap-layout/1\",\n\"name\": \"\\uD83D\"}"));
        Assert.Equal(("json-text", "line 3"), (problem.Rule, problem.Value));
        Assert.NotEmpty(Check(Store("\"x\":\"" + '\ud800' + "\",\"rooms\":7")));
        Assert.NotEmpty(Check("{\"\\ud800\":1,\"\\ud800\":2}"));
    }

    [Fact]
    public void TryParse_WholeCharacterEscaped_IsRead()
    {
        LayoutDocument.TryParse(Store("\"entrances\":[]").Replace("\"H\"", "\"\\uD83D\\uDE00\"", StringComparison.Ordinal), null, out var document);
        Assert.Equal("\U0001F600", document!.Plan.Name);
    }

    [Fact]
    public void TryParse_FieldsTwice_AreAllToldWithTheirLines() => Assert.Equal(
        ["id line 3", "units line 5"],
        Check("{\n\"id\":1,\n\"id\":2,\"units\":\"m\",\n\"x\":{\"id\":3},\n\"units\":\"ft\"}").Select(p => $"{p.Field} {p.Value}"));

    // Every fixture upon every other: the pairs are cut off once enough are told.
    [Fact]
    public void TryParse_ThousandsOfOverlaps_AreCutOff()
    {
        var list = string.Join(',', Enumerable.Range(0, 300).Select(i => $"{{\"id\":\"C{i}\",\"kind\":\"open-case\",\"outline\":[[1,1],[9,1],[9,2],[1,2]],\"front\":[[1,1],[9,1]]}}"));
        var problems = Check(Store($"\"fixtures\":[{list}]"));
        Assert.Equal(ProblemList.Most, problems.Count(p => p.Rule == "no-overlap"));
    }

    // Rooms within rooms, a thousand deep: refused after a bounded number of comparisons.
    [Fact]
    public void TryParse_RoomsTooEntangled_IsRefused()
    {
        var list = string.Join(',', Enumerable.Range(1, 1000).Select(i => FormattableString.Invariant(
            $"{{\"id\":\"R{i}\",\"outline\":[[{25 - (0.02 * i)},{20 - (0.015 * i)}],[{25 + (0.02 * i)},{20 - (0.015 * i)}],[{25 + (0.02 * i)},{20 + (0.015 * i)}],[{25 - (0.02 * i)},{20 + (0.015 * i)}]]}}")));
        Assert.Contains(Check(Store($"\"rooms\":[{list}]")), p => p.Rule == "too-entangled");
    }
}
