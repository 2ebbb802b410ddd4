using System.Text;
using StoreMap.Plans;

namespace StoreMap.Tests.Plans;

public class LayoutDocumentTests
{
    private const double Foot = 0.3048;

    private static LayoutDocument EveryField()
    {
        using var stream = File.OpenRead(CaseFiles.PathOf("layouts/good/every-field.layout.json"));
        return LayoutDocument.Read(stream, "every-field.layout.json");
    }

    [Fact]
    public void Read_EveryField_HasNoWarning() => Assert.Empty(EveryField().Warnings);

    [Fact]
    public void Read_EveryField_GivesThePlanInMetres()
    {
        var plan = EveryField().Plan;
        Assert.Equal(("quince-street", "America/Chicago", LengthUnit.Foot, 3), (plan.Id, plan.TimeZone, plan.Units, plan.Revision));
        Assert.Equal(new DateOnly(2026, 3, 1), plan.ValidFrom);
        Assert.Equal(350.5, plan.NorthDegrees);
        Assert.Equal(new PlanPoint(180 * Foot, 120 * Foot), plan.Outline[2]);
        Assert.Equal(12 * Foot, plan.Rooms[0].HeightMetres);
        Assert.Equal(10 * Foot, plan.Rooms[1].HeightMetres);
        Assert.Equal(4, plan.Obstacles[0].Outline.Count);
        Assert.Equal(380.5, plan.Systems[1].ChargeKilograms);
        Assert.Equal(1450 * 0.45359237, plan.Systems[0].ChargeKilograms!.Value, 1e-9);
        Assert.Equal(new TimeOnly(2, 0), plan.Circuits[0].Defrost!.Starts[0]);
    }

    [Fact]
    public void Read_PanelLengthsOfOneSection_RepeatInEverySection()
    {
        var panels = EveryField().Plan.FindFixture("C3")!.Panels;
        Assert.Equal(Enumerable.Range(1, 12).Select(i => $"C3/{i}"), panels.Select(p => p.Id));
        for (var i = 0; i < 12; i++)
        {
            Assert.Equal(4 * Foot * i, panels[i].From, 1e-9);
            Assert.Equal(4 * Foot * (i + 1), panels[i].To, 1e-9);
        }
    }

    [Fact]
    public void Read_PanelObjects_AreNumberedFromTheFrontsFirstPoint()
    {
        var panels = EveryField().Plan.FindFixture("C4")!.Panels;
        Assert.Equal([PanelKind.DeckPan, PanelKind.KickPlate, PanelKind.DeckPan], panels.Select(p => p.Kind));
        Assert.Equal(["C4/1", "C4/2", "C4/3"], panels.Select(p => p.Id));
        Assert.Equal(4, panels[1].Minutes);
    }

    [Fact]
    public void Read_CircuitPerSection_FeedsEachFromItsOwnSystem()
    {
        var plan = EveryField().Plan;
        var meat = plan.FindFixture("C3")!;
        Assert.Equal("R-448A", plan.RefrigerantAt(meat, 10 * Foot));
        Assert.Equal("R-744", plan.RefrigerantAt(meat, 30 * Foot));
        Assert.Equal("R-744", plan.RefrigerantAt(plan.FindFixture("W1")!));
        Assert.Equal("R-290", plan.RefrigerantAt(plan.FindFixture("S1")!));
    }

    [Fact]
    public void Read_FrontInEitherDirection_PutsTheLeftEndAsOneFacesTheCase()
    {
        var plan = EveryField().Plan;

        // C3 is faced from below (looking up the plan): its left end is at x = 30, where the front begins.
        Assert.True(plan.FindFixture("C3")!.FrontStartsLeft);

        // C4 is faced from below too, but its front begins at x = 93, its right end.
        Assert.False(plan.FindFixture("C4")!.FrontStartsLeft);
        Assert.Equal(new PlanPoint(0, -1), plan.FindFixture("C4")!.OutwardAt(1));
        Assert.Equal(new PlanPoint(0, -1), plan.FindFixture("C3")!.OutwardAt(1));

        // C6 is served from above.
        Assert.Equal(new PlanPoint(0, 1), plan.FindFixture("C6")!.OutwardAt(1));
    }

    [Fact]
    public void Write_ReadAgain_KeepsNumbersUnknownFieldsAndPlan()
    {
        var document = EveryField();
        using var stream = new MemoryStream();
        document.Write(stream);
        var text = Encoding.UTF8.GetString(stream.ToArray());
        Assert.Contains("350.50", text, StringComparison.Ordinal);
        Assert.Contains("1.20e2", text, StringComparison.Ordinal);
        Assert.Contains("\"scale\": 96.000", text, StringComparison.Ordinal);

        var again = LayoutDocument.Parse(text);
        using var second = new MemoryStream();
        again.Write(second);
        Assert.Equal(stream.ToArray(), second.ToArray());
        Assert.Equal(document.Plan.Fixtures.Count, again.Plan.Fixtures.Count);
    }

    [Fact]
    public void Reread_KeptLayout_IsTheSamePlanAndBytes()
    {
        var document = EveryField();
        using var stream = new MemoryStream();
        document.Write(stream);
        var again = LayoutDocument.Reread(Encoding.UTF8.GetString(stream.ToArray()));
        using var second = new MemoryStream();
        again.Write(second);
        Assert.Equal(stream.ToArray(), second.ToArray());
        Assert.Equal(document.Plan.ToString(), again.Plan.ToString());
        Assert.Equal(document.Plan.Fixtures.SelectMany(f => f.Panels).Select(p => p.ToString()), again.Plan.Fixtures.SelectMany(f => f.Panels).Select(p => p.ToString()));
        Assert.Equal(document.Plan.Drops.Select(d => d.ToString()), again.Plan.Drops.Select(d => d.ToString()));
    }

    /// <summary>A store that was kept before a rule came would open no more.</summary>
    [Fact]
    public void Reread_WhatOnlyARuleRefuses_Opens()
    {
        const string text = """
            { "format": "storemap-layout/1", "id": "elm-end", "name": "Elm End", "units": "ft", "outline": [[0,0],[100,0],[100,80],[0,80]],
              "fixtures": [
                { "id": "C1", "kind": "open-case", "outline": [[10,10],[20,10],[20,13],[10,13]], "front": [[10,10],[20,10]] },
                { "id": "C2", "kind": "open-case", "outline": [[12,11],[22,11],[22,14],[12,14]], "front": [[12,11],[22,11]] }] }
            """;
        Assert.Throws<RefusedInputException>(() => LayoutDocument.Parse(text));
        Assert.Equal(2, LayoutDocument.Reread(text).Plan.Fixtures.Count);
        Assert.Throws<RefusedInputException>(() => LayoutDocument.Reread(text.Replace("open-case", "opencase", StringComparison.Ordinal)));
    }

    [Fact]
    public void Read_SeveralErrors_CarriesAllAtOnce()
    {
        const string text = """
            { "format": "storemap-layout/1", "id": "Bad Id", "name": "X", "units": "ft", "outline": [[0,0],[100,0],[100,80],[0,80]],
              "fixtures": [
                { "id": "C1", "kind": "open-case", "outline": [[10,10],[20,10],[20,13],[10,13]], "front": [[10,11.5],[20,11.5]] },
                { "id": "C1", "kind": "opencase", "outline": [[30,10],[40,13],[40,10],[30,13]], "front": [[30,10],[40,10]] }] }
            """;
        var refused = Assert.Throws<RefusedInputException>(() => LayoutDocument.Parse(text, "x.layout.json"));
        Assert.Equal(
            ["id-pattern", "id-unique", "front-on-outline", "word", "ring-crosses-itself"],
            refused.Problems.Where(p => p.Severity == Severity.Error).Select(p => p.Rule));
        Assert.All(refused.Problems, p => Assert.Equal("x.layout.json", p.File));
    }

    [Fact]
    public void Read_DropWithoutFixtures_FeedsThoseWithinAMetre()
    {
        const string text = """
            { "format": "storemap-layout/1", "id": "d", "name": "D", "units": "m", "outline": [[0,0],[30,0],[30,20],[0,20]],
              "fixtures": [
                { "id": "C1", "kind": "open-case", "outline": [[5,5],[9,5],[9,6],[5,6]], "front": [[5,5],[9,5]] },
                { "id": "C2", "kind": "open-case", "outline": [[5,6.5],[9,6.5],[9,7.5],[5,7.5]], "front": [[5,7.5],[9,7.5]] },
                { "id": "C3", "kind": "open-case", "outline": [[15,5],[19,5],[19,6],[15,6]], "front": [[15,5],[19,5]] }],
              "drops": [{ "id": "D1", "at": [8,5.9] }, { "id": "D2", "at": [16,5.5], "fixtures": ["C3"] }, { "id": "D3", "at": [25,15] }] }
            """;
        var document = LayoutDocument.Parse(text);
        Assert.Equal(["C1,C2", "C3", ""], document.Plan.Drops.Select(d => string.Join(',', d.Fixtures)));
        Assert.Equal("D3", Assert.Single(document.Warnings, w => w.Rule == "drop-alone").Element);
        Assert.DoesNotContain(document.Warnings, w => w.Rule == "no-drop");
    }

    // A line-up that bends round a corner: the front follows the outline through it.
    [Fact]
    public void Read_BentFront_IsOneLineWithOneOutward()
    {
        const string text = """
            { "format": "storemap-layout/1", "id": "b", "name": "B", "units": "m", "outline": [[0,0],[30,0],[30,20],[0,20]],
              "fixtures": [{ "id": "C1", "kind": "service-case", "outline": [[5,5],[12,5],[12,12],[11,12],[11,6],[5,6]], "front": [[5,6],[11,6],[11,12]], "sections": [6,6] }] }
            """;
        var fixture = LayoutDocument.Parse(text).Plan.Fixtures[0];
        Assert.Equal(12, fixture.Front!.Length, 1e-12);
        Assert.Equal(new PlanPoint(0, 1), fixture.OutwardAt(3));
        Assert.Equal(new PlanPoint(-1, 0), fixture.OutwardAt(9));
    }

    // The back of an island with cut corners is its long edge, in the sense of the front.
    [Fact]
    public void Read_IslandWithCutCorners_FindsItsBack()
    {
        const string text = """
            { "format": "storemap-layout/1", "id": "i", "name": "I", "units": "m", "outline": [[0,0],[30,0],[30,20],[0,20]],
              "fixtures": [{ "id": "C1", "kind": "island-case", "outline": [[5.5,5],[14.5,5],[15,5.4],[15,7.1],[14.5,7.5],[10,7.5],[5.5,7.5],[5,7.1],[5,5.4]], "front": [[14.5,5],[5.5,5]] }] }
            """;
        var back = LayoutDocument.Parse(text).Plan.Fixtures[0].Back!;
        Assert.Equal([new PlanPoint(14.5, 7.5), new PlanPoint(10, 7.5), new PlanPoint(5.5, 7.5)], back.Points);
    }
}
