using System.Text.Json.Nodes;
using StoreMap.Plans;

namespace StoreMap.Editing;

/// <summary>Gives a case other sections, and its outline and front the length that they need; end panels stay. The left end of the front stays
/// where it is. Of a section that stays its circuit, coils, drains and panels stay with it; one that is put in gets the circuit of the one beside
/// it. A bent front keeps its shape.</summary>
/// <param name="Id">The case.</param>
/// <param name="Sections">One or more lengths above 0, in the order of the front.</param>
public sealed record SetSectionsEdit(string Id, IReadOnlyList<double> Sections) : LayoutEdit
{
    /// <inheritdoc/>
    public override IReadOnlyList<string> Apply(LayoutElementsJson layout)
    {
        if (layout.Find(Id) is not ("fixtures", var fixture) || FixtureFrame.IsWalkIn(fixture) || Sections.Count == 0) return [];
        var frame = FixtureFrame.Of(fixture);
        var points = FixtureFrame.Points(fixture["front"]);
        if (frame is null && points.Count < 2) return [];
        var unit = LengthUnits.FromSymbol(layout.Root["units"].Text() ?? "") ?? LengthUnit.Metre;
        var front = frame?.Width ?? new PlanLine(points).Length;
        var was = Lengths(fixture, front);
        // Sections that never fitted their front say nothing of its end panels.
        var panels = LengthFit.Fits([.. was.Select(l => l * unit.InMetres())], front * unit.InMetres()) ? front - was.Sum() : 0;
        var length = frame is null ? front : Sections.Sum() + panels;
        var change = new SectionChange(was, front, Sections, length);
        if (frame is not null) Stretch(fixture, frame, length - front, change);
        new SectionFields(fixture, unit).Follow(change, was, Sections);
        return [Id];
    }

    /// <summary>The lengths of a case's sections as the file has them; the whole front when it names none.</summary>
    /// <param name="fixture">The case as the file has it.</param>
    /// <param name="front">Length of its front.</param>
    public static IReadOnlyList<double> Lengths(JsonObject fixture, double front) =>
        fixture["sections"] is JsonArray { Count: > 0 } sections ? [.. sections.Select(s => (double)s!)] : [front];

    // What lies in the right half moves along with the right end.
    private static void Stretch(JsonObject fixture, FixtureFrame frame, double longer, SectionChange change)
    {
        var coils = (fixture["coils"] as JsonArray)?.DeepClone().AsArray();
        LayoutElementsJson.Map(fixture, (x, y) =>
        {
            var p = new PlanPoint(x, y);
            var q = frame.In(p).Right > frame.Width / 2 ? frame.Shifted(p, longer, 0) : p;
            return (q.X, q.Y);
        });
        if (coils is not [JsonArray, ..]) return;
        List<JsonNode> stay = [];
        foreach (var p in FixtureFrame.Points(coils))
        {
            var right = frame.In(p).Right;
            if (change.Place(frame.StartsLeft ? right : frame.Width - right) is not { } along) continue;
            var q = frame.Shifted(p, (frame.StartsLeft ? along : frame.Width + longer - along) - right, 0);
            stay.Add(LayoutElementsJson.Point(q.X, q.Y));
        }

        if (stay.Count > 0) fixture["coils"] = new JsonArray([.. stay]);
        else fixture.Remove("coils");
    }
}
