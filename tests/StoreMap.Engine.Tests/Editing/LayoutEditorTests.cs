using CsCheck;
using StoreMap.Editing;
using StoreMap.Plans;
using StoreMap.Tests.Rules;

namespace StoreMap.Tests.Editing;

/// <summary>Drawing a store, edit by edit.</summary>
public class LayoutEditorTests
{
    private const string Empty = """
        {"format": "storemap-layout/1", "id": "ash-end", "name": "Ash End", "units": "ft", "outline": [[0, 0], [120, 0], [120, 80], [0, 80]]}
        """;

    private static readonly string[] DemoIds = ["C1", "C2", "C22", "C25", "W1", "G3", "R1", "P1", "D4", "E1", "Q1", "PL1", "missing"];

    private static readonly Gen<double> Place = Gen.Int[-400, 400].Select(i => i / 4.0);

    private static readonly Gen<string[]> Ids = Gen.Int[0, DemoIds.Length - 1].Select(i => DemoIds[i]).Array[1, 3].Select(a => a.Distinct().ToArray());

    internal static readonly Gen<string> Kinds = Pick("open-case", "door-case", "island-case", "service-case", "walk-in", "self-contained");

    internal static readonly Gen<double[]> Lengths = Gen.Int[1, 30].Select(i => i / 2.0).Array[1, 5];

    internal static readonly Gen<LayoutEdit> AnyEdit = Gen.OneOf(
        Gen.Select(Ids, Place, Place, (ids, x, y) => (LayoutEdit)new MoveEdit(ids, x, y)),
        Gen.Select(Ids, Gen.Int[-5, 5], (ids, turns) => (LayoutEdit)new RotateEdit(ids, turns)),
        Gen.Select(Ids, Gen.Bool, (ids, side) => (LayoutEdit)new MirrorEdit(ids, side)),
        Gen.Select(Ids, Gen.Int[1, 4], Place, Place, (ids, n, x, y) => (LayoutEdit)new RepeatEdit(ids, n, x, y)),
        Gen.Select(Ids, Gen.Int[0, 3], (ids, side) => (LayoutEdit)new AlignEdit(ids, (AlignSide)side)),
        Ids.Select(ids => (LayoutEdit)new RemoveEdit(ids)),
        Gen.Select(Ids, Pick<string?>("9Z", "", null), (ids, text) => (LayoutEdit)new SetTextEdit(ids[0], "tag", text)),
        Gen.Select(Kinds, Place, Place, Gen.Int[1, 3], Gen.Int[0, 3], (kind, x, y, n, looks) =>
            (LayoutEdit)new AddFixtureEdit(kind, x, y, [.. Enumerable.Repeat(8.0, n)], 3.5, (FrontLooks)looks)),
        Gen.Select(Pick("rooms", "obstacles", "pits"), Place, Place, (list, x, y) => (LayoutEdit)new AddAreaEdit(list, list == "rooms" ? "other" : list == "pits" ? "pit" : "shelving", "Store", x, y, 6, 4)),
        Gen.Select(Ids, Gen.Int[-1, 5], Place, Place, (ids, n, x, y) => (LayoutEdit)new MoveCornerEdit(ids[0], n, x, y)),
        Gen.Int[1, 3].Select(n => (LayoutEdit)new AddListedEdit(Listed(string.Concat(Enumerable.Range(1, n).Select(i => $"{i}Z,open-case,12-8,A1,A,\n"))))),
        Gen.Select(Ids, Place, Place, (ids, x, y) => (LayoutEdit)new AddDropEdit(x, y, ids)),
        Gen.Select(Ids, Kinds, (ids, kind) => (LayoutEdit)new SetKindEdit(ids[0], kind)),
        Gen.Select(Ids, Lengths, (ids, sections) => (LayoutEdit)new SetSectionsEdit(ids[0], sections)),
        Gen.Select(Ids, Gen.Int[4, 60], Gen.Int[4, 60], (ids, w, d) => (LayoutEdit)new FixtureSizeEdit(ids[0], w / 2.0, d / 2.0)),
        Gen.Select(Ids, Pick("A1", "Z9", "A1/Z8", "A1/A2/A3", "", "E1", "no id"), Pick<string?>("A", "Z", "E1", null), Pick<string?>("R-448A", "mine", null), (ids, circuits, system, gas) =>
            (LayoutEdit)new SetCircuitEdit(ids[0], circuits, system, gas)),
        Gen.Select(Ids, Lengths, Gen.Int[1, 20], (ids, sections, depth) => (LayoutEdit)new SeveralEdits([new SetSectionsEdit(ids[0], sections), new FixtureSizeEdit(ids[0], null, depth / 2.0)])),
        Gen.Select(Ids, Gen.Int[0, 12], (ids, doors) => (LayoutEdit)new SetDoorsEdit(ids[0], doors == 0 ? null : doors)),
        Gen.Select(Place, Place, (x, y) => (LayoutEdit)new AddEntranceEdit(x, y)));

    private static Gen<T> Pick<T>(params T[] from) => Gen.Int[0, from.Length - 1].Select(i => from[i]);

    internal static string Demo => File.ReadAllText(SourceTree.PathOf("layouts", "tern-hollow", "tern-hollow.layout.json"));

    [Fact]
    public void Undo_OfAnyEdits_GivesTheSameLayoutAndRedoTheLast() => AnyEdit.Array[1, 12].SampleAgain(
        edits =>
        {
            var editor = new LayoutEditor(Demo);
            var before = editor.Text;
            foreach (var edit in edits) editor.Do(edit);
            var after = editor.Text;
            while (editor.CanUndo) editor.Undo();
            Assert.Equal(before, editor.Text);
            while (editor.CanRedo) editor.Redo();
            Assert.Equal(after, editor.Text);
        },
        iter: 40);

    [Fact]
    public void Layout_AfterAnyEdits_IsSavedOnlyWhenItPassesTheCheck() => AnyEdit.Array[1, 6].SampleAgain(
        edits =>
        {
            var editor = new LayoutEditor(Demo);
            foreach (var edit in edits) editor.Do(edit);
            using var file = new MemoryStream(System.Text.Encoding.UTF8.GetBytes(editor.Text));
            var errors = LayoutDocument.Check(file).Count(p => p.Severity == Severity.Error);
            Assert.Equal(editor.CanSave, errors == 0);
            Assert.Equal(errors, editor.Problems.Count(p => p.Severity == Severity.Error));
        },
        iter: 40);

    [Fact]
    public void Editor_OfAnUntouchedLayout_KeepsEveryNumberAsItWasRead()
    {
        var text = Demo.Replace("[74, 138.5], [98, 138.5], [98, 142]", "[74.0, 138.50], [98, 138.5], [98, 142]", StringComparison.Ordinal);
        var editor = new LayoutEditor(text);
        editor.Do(new MoveEdit(["C3"], 0.5, 0));
        Assert.Contains("[74.0, 138.50]", editor.Text, StringComparison.Ordinal);
        Assert.Contains("[130.5, 138.5]", editor.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void FourQuarterTurnsAndTwoMirrors_LeaveEveryPlaceWhereItWas() => Ids.SampleAgain(
        ids =>
        {
            var editor = new LayoutEditor(Demo);
            var before = editor.Plan;
            for (var i = 0; i < 4; i++) editor.Do(new RotateEdit(ids, 1));
            editor.Do(new MirrorEdit(ids, true));
            editor.Do(new MirrorEdit(ids, true));
            Assert.True(editor.CanSave);
            foreach (var (a, b) in before.Fixtures.Zip(editor.Plan.Fixtures))
            {
                Assert.Equal((a.Id, a.FrontStartsLeft, a.ValveEnd), (b.Id, b.FrontStartsLeft, b.ValveEnd));
                Assert.All(a.Outline.Zip(b.Outline), p => Assert.InRange(p.First.DistanceTo(p.Second), 0, 1e-4));
            }
        },
        iter: 12);

    [Theory]
    [InlineData(FrontLooks.Down)]
    [InlineData(FrontLooks.Right)]
    [InlineData(FrontLooks.Up)]
    [InlineData(FrontLooks.Left)]
    public void AddedCase_LooksWhereItWasTold_AndRunsFromItsLeftEnd(FrontLooks looks)
    {
        var editor = new LayoutEditor(Empty);
        var id = Assert.Single(editor.Do(new AddFixtureEdit("open-case", 40, 30, [12, 8], 3.5, looks)));
        Assert.True(editor.CanSave, string.Join("\n", editor.Problems));
        var fixture = editor.Plan.FindFixture(id)!;
        var outward = fixture.OutwardAt(1);
        var wanted = looks switch { FrontLooks.Down => (0, -1), FrontLooks.Right => (1, 0), FrontLooks.Up => (0, 1), _ => (-1, 0) };
        Assert.Equal(wanted, ((int)Math.Round(outward.X), (int)Math.Round(outward.Y)));
        Assert.True(fixture.FrontStartsLeft);
        Assert.Equal(2, fixture.Sections.Count);
    }

    [Fact]
    public void Store_DrawnFromNothing_PassesTheCheckAndCanBeWalked()
    {
        var editor = new LayoutEditor(Empty);
        editor.Do(new AddEntranceEdit(60, 0));
        editor.Do(new AddAreaEdit("rooms", "prep", "Prep", 0, 60, 30, 20));
        editor.Do(new AddOpeningEdit("R1", 12, 60, 16, 60));
        var first = editor.Do(new AddFixtureEdit("open-case", 40, 76.5, [12, 12], 3.5, FrontLooks.Down));
        var row = editor.Do(new RepeatEdit(first, 2, 24, 0));
        editor.Do(new AddFixtureEdit("walk-in", 2, 68, [10], 10, FrontLooks.Right));
        editor.Do(new AddDropEdit(64, 78, [first[0], row[0]]));
        editor.Do(new AddAreaEdit("obstacles", "shelving", "", 40, 30, 40, 4));
        Assert.True(editor.CanSave, string.Join("\n", editor.Problems));
        Assert.Equal(4, editor.Plan.Fixtures.Count);
        Assert.Equal(2, Assert.Single(editor.Plan.Drops).Fixtures.Count);
        Assert.Single(editor.Plan.Rooms[0].Openings);
    }

    [Fact]
    public void Remove_OfACase_TakesItOutOfDropsAndPits()
    {
        var editor = new LayoutEditor(Demo);
        editor.Do(new RemoveEdit(["C22", "C1"]));
        Assert.True(editor.CanSave, string.Join("\n", editor.Problems.Where(p => p.Severity == Severity.Error)));
        Assert.DoesNotContain(editor.Plan.Drops, d => d.Fixtures.Contains("C1"));
        Assert.Empty(editor.Plan.Pits.First(p => p.Id == "P1").Fixtures);
    }

    [Fact]
    public void Align_ToTheLeft_BringsEveryBoxToTheLeastX()
    {
        var editor = new LayoutEditor(Demo);
        editor.Do(new AlignEdit(["G9", "G10", "G11"], AlignSide.Left));
        Assert.All(editor.Plan.Obstacles.Where(o => o.Id is "G9" or "G10" or "G11"), o => Assert.Equal(60 * LengthUnits.MetresPerFoot, o.Outline.Min(p => p.X), 9));
    }

    [Fact]
    public void StoreSize_OfAnAngledStore_SquaresItOnlyWhenItsSizeChanges()
    {
        var editor = new LayoutEditor(Empty.Replace("[[0, 0], [120, 0], [120, 80], [0, 80]]", "[[-10, 5], [110, 5], [110, 40], [50, 85], [-10, 85]]", StringComparison.Ordinal));
        editor.Do(new StoreSizeEdit(120, 80));
        Assert.False(editor.CanUndo);
        editor.Do(new StoreSizeEdit(130, 80));
        Assert.Equal("[[-10,5],[120,5],[120,85],[-10,85]]", editor.Root["outline"]!.ToJsonString());
    }

    /// <summary>A corner between an upright and a level wall takes its neighbours along; another corner moves alone.</summary>
    [Fact]
    public void MoveCorner_OfARoom_KeepsRightAnglesRight()
    {
        var editor = new LayoutEditor(Demo);
        editor.Do(new MoveCornerEdit("R3", 2, -4, -3));
        Assert.Equal("[[92,142],[172,142],[172,177],[92,177]]", editor.Root["rooms"]![2]!["outline"]!.ToJsonString());
        IReadOnlyList<(double, double)> kite = [(0, 0), (4, 1), (5, 5), (1, 4)];
        Assert.Equal([(0, 0), (4, 1), (6, 7), (1, 4)], new MoveCornerEdit("", 2, 1, 2).Moved(kite));
    }

    /// <summary>The cases come beside the store, all of them outside and apart from each other, with only the circuits that are new.</summary>
    [Fact]
    public void AddListed_ToAStore_PutsTheCasesBesideIt()
    {
        var editor = new LayoutEditor(Demo);
        var circuits = editor.Root["circuits"]!.AsArray().Count;
        var known = (string)editor.Root["circuits"]![0]!["id"]!;
        var made = editor.Do(new AddListedEdit(Listed($"20A,open-case,12-12-8,{known},,\n20B,door-case,12-12,NEW9,,\n")));
        Assert.Equal(2, made.Count);
        Assert.Equal(circuits + 1, editor.Root["circuits"]!.AsArray().Count);
        foreach (var (_, element) in new LayoutElementsJson(editor.Root).Find(made)) Assert.True(LayoutElementsJson.Box([element])!.Value.Y0 > 180);
        Assert.False(editor.CanSave);
        editor.Do(new RemoveEdit(made));
        Assert.True(editor.CanSave);
    }

    [Fact]
    public void AddListed_ACircuitOnAnotherSystem_IsToldAndTheStoresStays()
    {
        var editor = new LayoutEditor(Demo);
        var (first, second) = (editor.Root["circuits"]![0]!, editor.Root["circuits"]![1]!);
        var system = editor.Root["systems"]![0]!;
        var edit = new AddListedEdit(Listed($"20A,open-case,12-12,{first["id"]},Z,R-134a\n20B,open-case,12,{second["id"]},{second["system"]},\n20C,open-case,12,NEW9,{system["id"]},R-22\n"));
        Assert.Equal(
            [
                new ListConflict("circuits", (string)first["id"]!, "system", (string?)first["system"], "Z"),
                new ListConflict("systems", (string)system["id"]!, "refrigerant", (string?)system["refrigerant"], "R-22"),
            ],
            edit.Conflicts(editor.Root));
        editor.Do(edit);
        Assert.Equal((string?)first["system"], (string?)editor.Root["circuits"]![0]!["system"]);
    }

    [Fact]
    public void AddListed_WithoutCircuits_AddsNoEmptyLists()
    {
        var bare = new LayoutEditor(Demo).Root.DeepClone().AsObject();
        foreach (var list in new[] { "circuits", "systems" }) bare.Remove(list);
        new AddListedEdit(Listed("20A,open-case,12-12,,,\n")).Apply(new LayoutElementsJson(bare));
        Assert.False(bare.ContainsKey("circuits") || bare.ContainsKey("systems"));
    }

    private static System.Text.Json.Nodes.JsonObject Listed(string rows)
    {
        using var csv = new MemoryStream(System.Text.Encoding.UTF8.GetBytes("tag,kind,lengths,circuit,system,refrigerant\n" + rows));
        return CaseList.Read(csv, null, new CaseListOptions { Units = LengthUnit.Foot, Id = "listed" }).Root;
    }
}
