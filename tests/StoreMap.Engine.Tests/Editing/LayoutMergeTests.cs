using System.Text.Json.Nodes;
using CsCheck;
using StoreMap.Editing;
using StoreMap.Plans;

namespace StoreMap.Tests.Editing;

/// <summary>Two people's changes to one store. The laws are those of Khanna, Kunal and Pierce, A formal investigation of diff3 (2007):
/// a side that changed nothing gives the other, equal sides give themselves, and changes apart from each other both hold.</summary>
public class LayoutMergeTests
{
    private static readonly string[] Cases = ["C1", "C2", "C3", "C10", "C22", "C25", "G3", "D4", "E1", "Q1"];

    private static readonly Gen<MoveEdit> Move = Gen.Select(Gen.Int[0, Cases.Length - 1], Gen.Int[-40, 40], Gen.Int[-40, 40], (n, x, y) => new MoveEdit([Cases[n]], x / 4.0, y / 4.0));

    [Fact]
    public void Merge_WithASideThatChangedNothing_IsTheOtherSide() => LayoutEditorTests.AnyEdit.Array[1, 8].SampleAgain(
        edits =>
        {
            var (from, after) = (After([]), After(edits));
            Assert.Equal(Text(after), Together(from, after, from));
            Assert.Equal(Text(after), Together(from, from, after));
            Assert.Equal(Text(after), Together(from, after, after));
        },
        iter: 30);

    [Fact]
    public void Merge_OfMovesOfDifferentThings_IsBothOneAfterTheOther() => Gen.Select(Move.Array[1, 4], Move.Array[1, 4]).SampleAgain(
        sides =>
        {
            var (mine, theirs) = sides;
            var apart = theirs.Where(t => mine.All(m => m.Ids[0] != t.Ids[0])).ToArray();
            Assert.Equal(Text(After([.. apart, .. mine])), Together(After([]), After(mine), After(apart)));
        },
        iter: 60);

    [Theory]
    [InlineData(true, 132)]
    [InlineData(false, 127)]
    public void Merge_OfACaseThatBothMoved_AsksAndTakesTheSideChosen(bool mine, double x)
    {
        var merge = new LayoutMerge(After([]), After([new MoveEdit(["C3"], 2, 0), new MoveEdit(["G3"], 1, 0)]), After([new MoveEdit(["C3"], -3, 0), new MoveEdit(["E1"], 4, 0)]));
        Assert.Equal("fixtures/C3", Assert.Single(merge.Clashes).Key);
        Assert.Equal((1, 2), (merge.Mine, merge.Theirs));
        var root = merge.Put(mine ? "fixtures/C3" : "none");
        Assert.Equal(x, (double)new LayoutElementsJson(root).Find("C3")!.Value.Element["outline"]![0]![0]!);
        Assert.Equal(81, (double)new LayoutElementsJson(root).Find("G3")!.Value.Element["outline"]![0]![0]!);
        Assert.Equal(76, (double)new LayoutElementsJson(root).Find("E1")!.Value.Element["at"]![0]!);
    }

    [Fact]
    public void Merge_OfACaseThatOneTookOutAndTheOtherMoved_Asks()
    {
        var (from, mine, theirs) = (After([]), After([new RemoveEdit(["G9"])]), After([new MoveEdit(["G9"], 1, 0)]));
        var merge = new LayoutMerge(from, mine, theirs);
        var clash = Assert.Single(merge.Clashes);
        Assert.Null(clash.Mine);
        Assert.NotNull(clash.Theirs);
        Assert.Null(new LayoutElementsJson(merge.Put("obstacles/G9")).Find("G9"));
        Assert.NotNull(new LayoutElementsJson(merge.Put()).Find("G9"));
    }

    /// <summary>Both drew a case, and both got the next free id: they are two cases, and a drop keeps the one it was drawn for.</summary>
    [Fact]
    public void Merge_OfTwoNewCasesOfOneId_KeepsBothAndWhatBelongsToEach()
    {
        static JsonObject Drawn(double x)
        {
            var editor = new LayoutEditor(LayoutEditorTests.Demo);
            var made = editor.Do(new AddFixtureEdit("open-case", x, 26, [8.0], 3.5, FrontLooks.Down));
            editor.Do(new AddDropEdit(x + 2, 28, made));
            return editor.Root;
        }

        var merge = new LayoutMerge(After([]), Drawn(60), Drawn(100));
        Assert.Empty(merge.Clashes);
        var root = merge.Put();
        var drops = root["drops"]!.AsArray().TakeLast(2).ToList();
        Assert.Equal(2, drops.Select(d => (string)d!["id"]!).Distinct().Count());
        foreach (var drop in drops)
        {
            var fixture = new LayoutElementsJson(root).Find((string)drop!["fixtures"]![0]!)!.Value.Element;
            Assert.Equal(2, (double)drop["at"]![0]! - (double)fixture["outline"]!.AsArray().Min(p => (double)p![0]!));
        }
    }

    /// <summary>Made apart: nothing tells who changed what, so what differs is asked and what one side alone has is kept.</summary>
    [Theory]
    [InlineData(true, 132)]
    [InlineData(false, 130)]
    public void Merge_OfTwoMadeApart_KeepsWhatOneHasAndAsksWhatDiffers(bool mine, double x)
    {
        var (here, there) = (After([new MoveEdit(["C3"], 2, 0), new RemoveEdit(["G9"])]), After([new RemoveEdit(["E1"])]));
        here["name"] = "Mine";
        var merge = LayoutMerge.OfTwo(here, there);
        Assert.Equal(["fixtures/C3", "name"], merge.Clashes.Select(c => c.Key).Order(StringComparer.Ordinal));
        Assert.Empty(merge.Renamed);
        var root = merge.Put(mine ? ["fixtures/C3"] : []);
        var both = new LayoutElementsJson(root);
        Assert.Equal(x, (double)both.Find("C3")!.Value.Element["outline"]![0]![0]!);
        Assert.All(new[] { "G9", "E1" }, id => Assert.NotNull(both.Find(id)));
        Assert.Equal(After([])["fixtures"]!.AsArray().Count, root["fixtures"]!.AsArray().Count);
    }

    private static string Together(JsonObject from, JsonObject mine, JsonObject theirs)
    {
        var merge = new LayoutMerge(from, mine, theirs);
        Assert.Empty(merge.Clashes);
        var editor = new LayoutEditor(LayoutEditorTests.Demo);
        editor.Do(new ReplaceEdit(merge.Put()));
        return Text(editor.Root);
    }

    // What stands where in a list says nothing.
    private static string Text(JsonObject root)
    {
        var sorted = root.DeepClone().AsObject();
        foreach (var (name, list) in root)
            if (list is JsonArray array && name != "outline") sorted[name] = new JsonArray([.. array.OrderBy(e => (string)e!["id"]!, StringComparer.Ordinal).Select(e => e!.DeepClone())]);
        return LayoutWriter.Text(sorted);
    }

    private static JsonObject After(params IEnumerable<LayoutEdit> edits)
    {
        var editor = new LayoutEditor(LayoutEditorTests.Demo);
        foreach (var edit in edits) editor.Do(edit);
        return editor.Root;
    }
}
