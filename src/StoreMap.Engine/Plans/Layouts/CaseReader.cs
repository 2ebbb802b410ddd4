using System.Text.Json;

namespace StoreMap.Plans;

/// <summary>Reads what a case has and a walk-in has not: front, back, sections, panels, doors, drains.</summary>
internal static class CaseReader
{
    /// <summary>Width of a door when a door case does not say how many it has: 30 in, common practice.</summary>
    public const double DefaultDoorWidth = 2.5 * LengthUnits.MetresPerFoot;

    private const int MostDoors = 200;

    /// <summary>Completes a case; null, with an error, when it has no usable front.</summary>
    public static Fixture? Read(FieldReader reader, LayoutElements elements, Fixture shared)
    {
        var front = reader.Require("front", "the edge probed from, two or more points along the outline") ? reader.Line("front") : null;
        var back = shared.Kind == FixtureKind.IslandCase ? reader.Line("back") : null;
        var drawn = shared.Outline.Count > 0;
        if (drawn && front is not null && !LineOnRing.Check(reader, "front", front, shared.Outline)) front = null;
        if (drawn && back is not null && !LineOnRing.Check(reader, "back", back, shared.Outline)) back = null;
        if (front is null || !drawn)
        {
            // Fields that hang on the front can only be checked for their type.
            SectionReader.Lengths(reader, "sections", LayoutLimits.SectionLeast, LayoutLimits.SectionMost);
            elements.CheckCircuits(reader);
            Doors(reader);
            reader.Word<CaseEnd>("valveEnd");
            return null;
        }

        var (sections, nominal) = SectionReader.Read(reader, elements, front);
        var fixture = shared with
        {
            Front = front, FrontStartsLeft = FrontSide.StartsLeft(shared.Outline, front), Sections = sections,
            Panels = PanelReader.Read(reader, shared.Id, front.Length, sections, nominal),
            Doors = Doors(reader) ?? 0, DoorsRetrofit = reader.Flag("doorsRetrofit") ?? false,
            ValveEnd = reader.Word<CaseEnd>("valveEnd"), Drains = Drains(reader, front.Length),
        };
        return WithDoors(reader, fixture) with { Back = Back(reader, fixture, back) };
    }

    private static int? Doors(FieldReader reader) => reader.Whole("doors", 0, MostDoors);

    private static Fixture WithDoors(FieldReader reader, Fixture fixture)
    {
        if (fixture.Kind != FixtureKind.DoorCase || fixture.Doors > 0) return fixture;
        var doors = fixture.Sections.Sum(s => Math.Max(1, (int)Math.Round((s.To - s.From) / DefaultDoorWidth)));
        reader.Warn("doors", reader["doors"], "no-doors", $"The door case does not say how many doors it has; {doors} are taken, about 30 in wide.");
        return fixture with { Doors = doors };
    }

    private static List<double> Drains(FieldReader reader, double length)
    {
        var nodes = reader.List("drains", 100);
        List<double> drains = [];
        for (var i = 0; i < nodes.Count; i++)
        {
            if (nodes[i]?.GetValueKind() != JsonValueKind.Number) reader.WrongType($"drains[{i}]", nodes[i], "a number");
            else if (reader.LengthOf($"drains[{i}]", nodes[i], -LayoutLimits.Slack, length + LayoutLimits.Slack) is { } at) drains.Add(Math.Clamp(at, 0, length));
        }

        drains.Sort();
        return drains;
    }

    private static PlanLine? Back(FieldReader reader, Fixture fixture, PlanLine? given)
    {
        if (given is not null) return IslandBack.InSenseOf(fixture.Front!, given);
        if (fixture.Kind != FixtureKind.IslandCase || reader["back"] is not null) return null;
        var found = IslandBack.Find(fixture.Outline, fixture.Front!);
        if (found is null) reader.Warn("back", null, "no-back", "The island's second long edge can't be told from its outline, so only its front is probed; give it as back.");
        return found;
    }
}
