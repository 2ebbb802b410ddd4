using System.Text.Json.Nodes;
using StoreMap.Plans;

namespace StoreMap.Editing;

/// <summary>Makes a fixture one of another kind. A case that becomes a walk-in gets its doorway in the middle of its front, a walk-in that becomes
/// a case its front along the wall of its doorway; what says nothing for the new kind is taken out.</summary>
/// <param name="Id">The fixture.</param>
/// <param name="Kind">Kind as the file names it, such as <c>open-case</c>.</param>
public sealed record SetKindEdit(string Id, string Kind) : LayoutEdit
{
    /// <inheritdoc/>
    public override IReadOnlyList<string> Apply(LayoutElementsJson layout)
    {
        if (layout.Find(Id) is not ("fixtures", var fixture) || KebabNames.Parse<FixtureKind>(Kind) is not { } kind || fixture["kind"].Text() == Kind) return [];
        if (kind == FixtureKind.WalkIn) BecomeWalkIn(fixture);
        else if (FixtureFrame.IsWalkIn(fixture) && FixtureFrame.Wall(fixture) is { } wall) fixture["front"] = FixtureFrame.Line(wall.A, wall.B);
        fixture["kind"] = Kind;
        foreach (var field in FixtureReader.StrangeFields(kind)) fixture.Remove(field);
        return [Id];
    }

    private static void BecomeWalkIn(JsonObject fixture)
    {
        var front = FixtureFrame.Points(fixture["front"]);
        var piece = front.Zip(front.Skip(1), (a, b) => new PlanSegment(a, b)).DefaultIfEmpty().MaxBy(s => s.Length);
        if (piece.Length > 0) fixture["opening"] = FixtureFrame.Doorway(piece.A, piece.B);

        // A case counts the coils of each section, a walk-in shows where its coils hang; it hangs on one circuit.
        if (fixture["coils"] is JsonValue or JsonArray and [JsonValue, ..]) fixture.Remove("coils");
        if (fixture["circuit"] is not JsonArray circuits) return;
        if (circuits.Select(c => c.Text()).OfType<string>().FirstOrDefault() is { } first) fixture["circuit"] = first;
        else fixture.Remove("circuit");
    }
}
