using System.Text.Json.Nodes;
using CsCheck;
using StoreMap.Editing;
using StoreMap.Plans;

namespace StoreMap.Tests.Editing;

/// <summary>Putting a fixture right that is drawn already: its kind, sections, depth and circuit.</summary>
public class FixtureEditTests
{
    private const double Foot = LengthUnits.MetresPerFoot;

    private static readonly string[] Places = ["no-overlap", "inside-outline", "front-blocked"];

    private static readonly Gen<string> Cases = Gen.Int[0, 9].Select(i => ((string[])["C1", "C2", "C6", "C10", "C13", "C22", "C25", "C26", "C28", "C30"])[i]);

    private static readonly Gen<LayoutEdit[]> Corrections = Cases.SelectMany(id => Gen.OneOf(
        LayoutEditorTests.Lengths.Select(l => (LayoutEdit)new SetSectionsEdit(id, l)),
        LayoutEditorTests.Kinds.Where(k => k != "walk-in").Select(k => (LayoutEdit)new SetKindEdit(id, k)),
        Gen.Int[4, 20].Select(d => (LayoutEdit)new FixtureSizeEdit(id, null, d / 2.0))).Array[1, 4]);

    /// <summary>Whatever is put right of a case, its front looks the same way from the same left end, and its fields fit each other: what can
    /// be wrong is its place alone.</summary>
    [Fact]
    public void Case_PutRight_KeepsItsFrontAndFitsItself() => Corrections.SampleAgain(
        edits =>
        {
            var editor = new LayoutEditor(Bare());
            var before = editor.Root["fixtures"]!.AsArray();
            foreach (var edit in edits) editor.Do(edit);
            Assert.Equal(before.Select(f => (string)f!["id"]!), editor.Root["fixtures"]!.AsArray().Select(f => (string)f!["id"]!));
            Assert.DoesNotContain(editor.Problems, p => p.Severity == Severity.Error && !Places.Contains(p.Rule));
            if (!editor.CanSave) return;
            foreach (var (a, b) in new LayoutEditor(Bare()).Plan.Fixtures.Zip(editor.Plan.Fixtures))
            {
                Assert.Equal(a.FrontStartsLeft, b.FrontStartsLeft);
                Assert.InRange(Left(a).DistanceTo(Left(b)), 0, 1e-4);
                Assert.InRange(a.OutwardAt(0.1).DistanceTo(b.OutwardAt(0.1)), 0, 1e-6);
            }

            var id = edits[0] switch { SetSectionsEdit s => s.Id, SetKindEdit k => k.Id, FixtureSizeEdit d => d.Id, _ => "" };
            var fixture = editor.Plan.FindFixture(id)!;
            if (edits.OfType<SetSectionsEdit>().LastOrDefault() is { } sections)
                Assert.Equal(sections.Sections, fixture.Sections.Select(s => Math.Round((s.To - s.From) / Foot, 3)));
            if (edits.OfType<FixtureSizeEdit>().LastOrDefault() is { } size)
                Assert.Equal(size.Depth, FixtureFrame.Of(Json(editor, id))!.Depth, 3);
        },
        iter: 120);

    [Fact]
    public void SetSections_OfACaseWithATypo_ChangesItsRightEndAlone()
    {
        var editor = new LayoutEditor(Demo);
        editor.Do(new SetSectionsEdit("C2", [12, 6]));
        Assert.True(editor.CanSave, string.Join("\n", editor.Problems));
        var c2 = Json(editor, "C2");
        Assert.Equal("[[98,138.5],[116,138.5],[116,142],[98,142]]", c2["outline"]!.ToJsonString());
        Assert.Equal("[[98,138.5],[116,138.5]]", c2["front"]!.ToJsonString());
        Assert.Equal("""["A1","A2"]""", c2["circuit"]!.ToJsonString());
    }

    // C25 looks left: its front runs down the plan from its left end at y = 132.
    [Fact]
    public void SetSections_WithOneTakenOut_LeavesTheOthersTheirCircuitsAndDrains()
    {
        var editor = new LayoutEditor(Demo);
        editor.Do(new SetSectionsEdit("C25", [8, 8, 6, 8, 8]));
        Assert.Equal("""["H4","H4","H4","H5","H5"]""", Json(editor, "C25")["circuit"]!.ToJsonString());
        Assert.Equal("[8,30]", Json(editor, "C25")["drains"]!.ToJsonString());
        editor.Do(new SetSectionsEdit("C25", [6, 8, 8]));
        Assert.Equal("""["H4","H5","H5"]""", Json(editor, "C25")["circuit"]!.ToJsonString());
        Assert.Equal("[14]", Json(editor, "C25")["drains"]!.ToJsonString());
        Assert.Equal("[[26,132],[26,110]]", Json(editor, "C25")["front"]!.ToJsonString());
        Assert.True(editor.CanSave, string.Join("\n", editor.Problems));
    }

    [Theory]
    [InlineData("[12, 12]", "[4, 4, 4]", "[4,4,4,4,4]")]
    [InlineData("[12, 12]", "[6, 6, 4, 4, 4]", "[6,6,4,4]")]
    [InlineData("[12, 12]", "[8, 8, 8]", null)]
    [InlineData("[12, 12]", """[{"kind": "rear", "from": 1, "to": 5, "minutes": 20}, {"from": 14, "to": 23}]""", """[{"kind":"rear","from":1,"to":5,"minutes":20},{"from":14,"to":20}]""")]
    [InlineData("[12, 8.5]", """[{"from": 13, "to": 20}]""", """[{"from":13,"to":20}]""")]
    public void SetSections_OfACaseWithPanels_KeepsThoseOfTheSectionThatStays(string sections, string panels, string? after)
    {
        var root = JsonNode.Parse(Demo)!.AsObject();
        var c1 = new LayoutElementsJson(root).Find("C1")!.Value.Element;
        (c1["sections"], c1["panels"]) = (JsonNode.Parse(sections), JsonNode.Parse(panels));
        if (sections != "[12, 12]") (c1["outline"], c1["front"]) = (LayoutElementsJson.Rectangle(77.5, 138.5, 20.5, 3.5), JsonNode.Parse("[[77.5, 138.5], [98, 138.5]]"));
        var editor = new LayoutEditor(root.ToJsonString());
        editor.Do(new SetSectionsEdit("C1", [12, 8]));
        Assert.True(editor.CanSave, string.Join("\n", editor.Problems));
        Assert.Equal(after, Json(editor, "C1")["panels"]?.ToJsonString());
    }

    [Fact]
    public void SetSections_OfACaseWithCoilsAndEndPanels_MovesThemAlong()
    {
        var root = JsonNode.Parse(Demo)!.AsObject();
        var c34 = new LayoutElementsJson(root).Find("C34")!.Value.Element;
        (c34["sections"], c34["coils"], c34["valveEnd"]) = (JsonNode.Parse("[12, 12, 11.75]"), JsonNode.Parse("[[86, 114], [70, 114], [58, 114]]"), "right");
        var editor = new LayoutEditor(root.ToJsonString());
        editor.Do(new SetSectionsEdit("C34", [12, 11.75]));
        Assert.Equal("[[86,114],[70,114]]", Json(editor, "C34")["coils"]!.ToJsonString());
        Assert.Equal("[[88,115.5],[64,115.5]]", Json(editor, "C34")["front"]!.ToJsonString());
        Assert.True(editor.CanSave, string.Join("\n", editor.Problems));
    }

    [Theory]
    [InlineData("W1", 12, 20, "[[48,156],[60,156],[60,176],[48,176]]", "[[52,156],[56,156]]")]
    [InlineData("W3", 30, 20, "[[98,150],[118,150],[118,180],[98,180]]", "[[118,160.893],[118,165.893]]")]
    public void FixtureSize_OfAWalkIn_KeepsItsLeftCornerAndTheDoorwaysWidth(string id, double width, double depth, string outline, string opening)
    {
        var editor = new LayoutEditor(Bare());
        editor.Do(new FixtureSizeEdit(id, width, depth));
        Assert.DoesNotContain(editor.Problems, p => p.Severity == Severity.Error && !Places.Contains(p.Rule));
        Assert.Equal(outline, Json(editor, id)["outline"]!.ToJsonString());
        Assert.Equal(2, Json(editor, id)["coils"]!.AsArray().Count);
        var frame = FixtureFrame.Of(Json(editor, id))!;
        Assert.Equal((width, depth), (Math.Round(frame.Width, 4), Math.Round(frame.Depth, 4)));
        var (was, now) = (JsonNode.Parse(opening)!, Json(editor, id)["opening"]!);
        for (var i = 0; i < 4; i++) Assert.Equal((double)was[i / 2]![i % 2]!, (double)now[i / 2]![i % 2]!, 1e-3);
    }

    [Fact]
    public void SetKind_ToAWalkInAndBack_PassesTheCheckOnceItsSectionsAreTyped()
    {
        var editor = new LayoutEditor(Demo);
        editor.Do(new SetKindEdit("C25", "walk-in"));
        Assert.True(editor.CanSave, string.Join("\n", editor.Problems));
        Assert.Equal("H4", editor.Plan.FindFixture("C25")!.WalkInCircuit);
        editor.Do(new SetKindEdit("C25", "open-case"));
        editor.Do(new SetSectionsEdit("C25", [8, 12, 12]));
        Assert.True(editor.CanSave, string.Join("\n", editor.Problems));
        Assert.Equal(new LayoutEditor(Demo).Plan.FindFixture("C25")!.OutwardAt(1), editor.Plan.FindFixture("C25")!.OutwardAt(1));
        Assert.Equal(3, editor.Plan.FindFixture("C25")!.Sections.Count);
    }

    [Fact]
    public void SetCircuit_ToANewOne_AddsItAndItsSystemOnce()
    {
        var editor = new LayoutEditor(Demo);
        editor.Do(new SetCircuitEdit("C2", "A1/M1", "M", "r449a"));
        Assert.True(editor.CanSave, string.Join("\n", editor.Problems));
        Assert.Equal(["A1", "M1"], editor.Plan.FindFixture("C2")!.Sections.Select(s => s.Circuit));
        Assert.Equal("R-449A", editor.Plan.Systems.Single(s => s.Id == "M").Refrigerant);
        var (circuits, systems) = (editor.Plan.Circuits.Count, editor.Plan.Systems.Count);
        editor.Do(new SetCircuitEdit("C1", "M1"));
        editor.Do(new SetCircuitEdit("C3", "M2", "M"));
        Assert.Equal((circuits + 1, systems), (editor.Plan.Circuits.Count, editor.Plan.Systems.Count));
        editor.Do(new SetCircuitEdit("C1", ""));
        Assert.Null(Json(editor, "C1")["circuit"]);
    }

    [Theory]
    [InlineData("M1", null, null, "which system")]
    [InlineData("M1", "M", null, "its refrigerant")]
    [InlineData("M1", "M", " ", "its refrigerant")]
    [InlineData("M 1", "A", null, "can't be an id")]
    [InlineData("E1", "A", null, "another thing's")]
    [InlineData("M", "M", "R-448A", "can't both be")]
    [InlineData("A2", null, null, null)]
    [InlineData("M1", "A", null, null)]
    public void SetCircuit_ThatLacksSomething_SaysWhatAndChangesNothing(string circuit, string? system, string? refrigerant, string? told)
    {
        var editor = new LayoutEditor(Demo);
        var edit = new SetCircuitEdit("C1", circuit, system, refrigerant);
        if (told is null) Assert.Null(edit.Refusal(editor.Root));
        else Assert.Contains(told, edit.Refusal(editor.Root), StringComparison.Ordinal);
        editor.Do(edit);
        Assert.True(editor.CanSave);
        Assert.Equal(told is null, editor.CanUndo);
    }

    private static string Demo => LayoutEditorTests.Demo;

    // The demo store without what a fixture that grows would meet.
    private static string Bare()
    {
        var root = JsonNode.Parse(Demo)!.AsObject();
        foreach (var list in (string[])["rooms", "obstacles"]) root.Remove(list);
        return root.ToJsonString();
    }

    private static JsonObject Json(LayoutEditor editor, string id) => new LayoutElementsJson(editor.Root).Find(id)!.Value.Element;

    private static PlanPoint Left(Fixture fixture) =>
        fixture.Front is not { } front ? fixture.Opening!.Value.A : fixture.FrontStartsLeft ? front.Points[0] : front.Points[^1];
}
