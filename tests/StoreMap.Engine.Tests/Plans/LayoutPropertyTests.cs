using System.Globalization;
using System.Text;
using System.Text.Json;
using CsCheck;
using StoreMap.Plans;

namespace StoreMap.Tests.Plans;

/// <summary>What must hold for every store however it is written down.</summary>
public class LayoutPropertyTests
{
    private const double Tolerance = 1e-9;
    private const decimal Quarter = 0.25m;

    private static Plan Read(string text) => LayoutDocument.Parse(text).Plan;

    private static List<string> Tokens(string text)
    {
        var reader = new Utf8JsonReader(Encoding.UTF8.GetBytes(text), new JsonReaderOptions { CommentHandling = JsonCommentHandling.Skip, AllowTrailingCommas = true });
        List<string> tokens = [];
        while (reader.Read()) tokens.Add($"{reader.TokenType} {Encoding.UTF8.GetString(reader.ValueSpan)}");
        return tokens;
    }

    private static string Written(LayoutDocument document)
    {
        using var stream = new MemoryStream();
        document.Write(stream);
        return Encoding.UTF8.GetString(stream.ToArray());
    }

    // Ways to spell a number that all mean the same.
    private static Func<decimal, string> Spelling(int seed)
    {
        var state = (uint)seed;
        return value =>
        {
            state = (state * 1664525) + 1013904223;
            return (state >> 28) switch
            {
                < 4 => value.ToString("0.00", CultureInfo.InvariantCulture),
                < 6 => value.ToString("0.0####", CultureInfo.InvariantCulture) + "e0",
                < 8 => (value / 10).ToString(CultureInfo.InvariantCulture) + "E+1",
                _ => value.ToString(CultureInfo.InvariantCulture),
            };
        };
    }

    private static void AssertNear(PlanPoint a, PlanPoint b) => Assert.InRange(a.DistanceTo(b), 0, Tolerance);

    private static void AssertNear(IReadOnlyList<PlanPoint> a, IReadOnlyList<PlanPoint> b)
    {
        Assert.Equal(a.Count, b.Count);
        for (var i = 0; i < a.Count; i++) AssertNear(a[i], b[i]);
    }

    private static void AssertNear(Fixture a, Fixture b)
    {
        AssertNear(a.Outline, b.Outline);
        Assert.Equal((a.Id, a.Kind, a.FrontStartsLeft, a.Doors, a.Sections.Count, a.Panels.Count, a.Coils.Count), (b.Id, b.Kind, b.FrontStartsLeft, b.Doors, b.Sections.Count, b.Panels.Count, b.Coils.Count));
        AssertNear(a.Coils, b.Coils);
        AssertNear(a.Front?.Points ?? [], b.Front?.Points ?? []);
        AssertNear(a.Back?.Points ?? [], b.Back?.Points ?? []);
        for (var i = 0; i < a.Sections.Count; i++) Assert.Equal(a.Sections[i].To, b.Sections[i].To, Tolerance);
        for (var i = 0; i < a.Panels.Count; i++) Assert.Equal(a.Panels[i].To, b.Panels[i].To, Tolerance);
        for (var i = 0; i < a.Drains.Count; i++) Assert.Equal(a.Drains[i], b.Drains[i], Tolerance);
    }

    [Theory]
    [InlineData("in")]
    [InlineData("mm")]
    [InlineData("m")]
    public void Read_SameStoreInAnotherUnit_GivesTheSamePlan(string unit)
    {
        var feet = LayoutDocument.Parse(CaseFiles.Text("layouts/good/four-units-ft.layout.json"));
        var other = LayoutDocument.Parse(CaseFiles.Text($"layouts/good/four-units-{unit}.layout.json"));
        Assert.Equal(unit, other.Plan.Units.Symbol());
        Assert.Equal(feet.Warnings.Select(w => (w.Rule, w.Element)), other.Warnings.Select(w => (w.Rule, w.Element)));
        AssertNear(feet.Plan.Outline, other.Plan.Outline);
        for (var i = 0; i < feet.Plan.Fixtures.Count; i++) AssertNear(feet.Plan.Fixtures[i], other.Plan.Fixtures[i]);
        AssertNear(feet.Plan.Rooms[0].Openings[0].A, other.Plan.Rooms[0].Openings[0].A);
        Assert.Equal(feet.Plan.Rooms[0].HeightMetres, other.Plan.Rooms[0].HeightMetres, Tolerance);
        AssertNear(feet.Plan.Pipes[0].Path.Points, other.Plan.Pipes[0].Path.Points);
        AssertNear(feet.Plan.Circuits[0].Shutoffs[0].At!.Value, other.Plan.Circuits[0].Shutoffs[0].At!.Value);
    }

    [Fact]
    public void Read_AnyStoreInFeetAndMillimetres_GivesTheSamePlan() => GenStore.Any.Sample(store =>
    {
        var feet = Read(store.Layout("ft", Quarter));
        var millimetres = Read(store.Layout("mm", 76.2m));
        for (var i = 0; i < feet.Fixtures.Count; i++) AssertNear(feet.Fixtures[i], millimetres.Fixtures[i]);
    }, iter: 200);

    [Fact]
    public void Write_AnyStore_KeepsEveryTokenAsWritten() => Gen.Select(GenStore.Any, Gen.Int).Sample((store, seed) =>
    {
        var text = store.Layout("ft", Quarter, spelling: Spelling(seed));
        var written = Written(LayoutDocument.Parse(text));
        Assert.Equal(Tokens(text), Tokens(written));
        Assert.Equal(written, Written(LayoutDocument.Parse(written)));
    }, iter: 200);

    [Fact]
    public void Read_MirroredStore_SwapsTheLeftEndAndKeepsTheRest() => GenStore.Any.Sample(store =>
    {
        var plan = Read(store.Layout("ft", Quarter));
        var mirrored = Read(store.Layout("ft", Quarter, mirrored: true));
        for (var i = 0; i < plan.Fixtures.Count; i++)
        {
            var (a, b) = (plan.Fixtures[i], mirrored.Fixtures[i]);
            Assert.NotEqual(a.FrontStartsLeft, b.FrontStartsLeft);
            Assert.Equal(a.Sections.Select(s => s.To), b.Sections.Select(s => s.To), (x, y) => Math.Abs(x - y) < Tolerance);
            var (u, v) = (a.OutwardAt(1), b.OutwardAt(1));
            AssertNear(new PlanPoint(-u.X, u.Y), v);
            Assert.Equal(Rings.SignedArea(a.Outline), Rings.SignedArea(b.Outline), 1e-6);
        }
    }, iter: 200);

    [Fact]
    public void Read_RingInAnySenseFromAnyCorner_GivesTheSameCase() => GenStore.Any.Sample(store =>
    {
        var plan = Read(store.Layout("ft", Quarter));
        var plain = Read(new GenStore([.. store.Cases.Select(c => c with { RingReversed = false, RingStart = 0 })]).Layout("ft", Quarter));
        for (var i = 0; i < plan.Fixtures.Count; i++)
        {
            var (a, b) = (plan.Fixtures[i], plain.Fixtures[i]);
            Assert.Equal(b.Outline.OrderBy(p => p.X).ThenBy(p => p.Y), a.Outline.OrderBy(p => p.X).ThenBy(p => p.Y));
            Assert.True(Rings.SignedArea(a.Outline) > 0);
            Assert.Equal(b.FrontStartsLeft, a.FrontStartsLeft);
            AssertNear(b.Back?.Points ?? [], a.Back?.Points ?? []);
        }
    }, iter: 200);

    [Fact]
    public void Read_FrontInEitherDirection_FacesTheSameWay() => GenStore.Any.Sample(store =>
    {
        var plan = Read(store.Layout("ft", Quarter));
        var turned = Read(new GenStore([.. store.Cases.Select(c => c with { FrontReversed = !c.FrontReversed, Sections = [.. c.Sections.Reverse()] })]).Layout("ft", Quarter));
        for (var i = 0; i < plan.Fixtures.Count; i++)
        {
            var (a, b) = (plan.Fixtures[i], turned.Fixtures[i]);
            Assert.NotEqual(a.FrontStartsLeft, b.FrontStartsLeft);
            var along = a.Front!.Length / 3;
            AssertNear(a.OutwardAt(along), b.OutwardAt(b.Front!.Length - along));
            Assert.Equal(a.FromLeft(along), b.FromLeft(b.Front.Length - along), Tolerance);
            foreach (var (s, t) in a.Sections.Zip(b.Sections.Reverse())) AssertNear(a.Front.PointAt(s.From), b.Front.PointAt(t.To));
            if (a.Back is not null) AssertNear(a.Back.Points[0], b.Back!.Points[^1]);
        }
    }, iter: 200);

    [Fact]
    public void Read_AnyFront_LooksAwayFromItsCase() => GenStore.Any.Sample(store =>
    {
        foreach (var fixture in Read(store.Layout("ft", Quarter)).Fixtures)
        {
            var at = fixture.Front!.PointAt(fixture.Front.Length / 2);
            Assert.False(Rings.Contains(fixture.Outline, at + (fixture.OutwardAt(fixture.Front.Length / 2) * 0.1)));
            Assert.True(Rings.Contains(fixture.Outline, at - (fixture.OutwardAt(fixture.Front.Length / 2) * 0.1)));
        }
    }, iter: 200);

    [Fact]
    public void Read_AnyCase_IsCoveredBySectionsAndPanels() => GenStore.Any.Sample(store =>
    {
        foreach (var fixture in Read(store.Layout("ft", Quarter)).Fixtures)
        {
            Assert.Equal(0, fixture.Sections[0].From);
            Assert.Equal(fixture.Front!.Length, fixture.Sections[^1].To);
            Assert.Equal(fixture.Front.Length, fixture.Panels[^1].To);
            for (var i = 1; i < fixture.Panels.Count; i++) Assert.Equal(fixture.Panels[i - 1].To, fixture.Panels[i].From);
            Assert.All(fixture.Panels, p => Assert.InRange(p.To - p.From, 0.3, (4 * 0.3048) + Tolerance));
        }
    }, iter: 200);
}
