using StoreMap.Plans;

namespace StoreMap.Tests.Sheets;

/// <summary>Random invented stores of plausible make: cases along the walls, line-ups and islands in the middle, walk-ins at the back.</summary>
internal static class SampleStore
{
    public static Plan Make(int seed)
    {
        var random = new SampleVisit.Lcg(seed + 1000);
        var units = (LengthUnit)random.Next(4);
        double width = 25 + (45 * random.Value()), depth = 20 + (35 * random.Value());
        var fixtures = new List<Fixture>();
        var number = 0;
        Fixture Case(FixtureKind kind, double x, double y, double w, double h, PlanPoint a, PlanPoint b, bool leftFirst)
        {
            var id = "C" + ++number;
            var front = new PlanLine([a, b]);
            var count = Math.Max(1, (int)Math.Round(front.Length / 3.6));
            var sections = Enumerable.Range(0, count).Select(i => new Section(i + 1, front.Length * i / count, front.Length * (i + 1) / count, 1, i % 2 == 0 ? "A1" : "B1")).ToList();
            var panelCount = Math.Max(1, (int)Math.Ceiling(front.Length / 1.22));
            return new Fixture
            {
                Id = id, Tag = (number % 3) switch { 0 => id, 1 => $"{number}A", _ => $"LU{number}-{random.Next(40)}" },
                Name = random.Value() < 0.6 ? new[] { "Fresh meat", "Dairy", "Frozen meals & ices", "Produce", "Salads <2 days" }[random.Next(5)] : null,
                Kind = kind, Outline = [new(x, y), new(x + w, y), new(x + w, y + h), new(x, y + h)], Front = front, Sections = sections, FrontStartsLeft = leftFirst,
                Doors = kind == FixtureKind.DoorCase ? Math.Max(1, (int)(front.Length / 0.76)) : 0,
                Panels = [.. Enumerable.Range(0, panelCount).Select(i => new Panel($"{id}/{i + 1}", PanelKind.DeckPan, front.Length * i / panelCount, front.Length * (i + 1) / panelCount, 6))],
            };
        }

        for (var x = 1.0; x + 6 < width - 1;)
        {
            var length = 3 + (6 * random.Value());
            fixtures.Add(Case(FixtureKind.OpenCase, x, depth - 1.1, length, 1.1, new(x, depth - 1.1), new(x + length, depth - 1.1), true));
            x += length + (random.Value() < 0.5 ? 0 : 2);
        }

        for (var y = 5.0; y + 8 < depth - 4; y += 9.5)
        {
            fixtures.Add(Case(FixtureKind.DoorCase, 0, y, 1.0, 7.5, new(1.0, y + 7.5), new(1.0, y), true));
            fixtures.Add(Case(FixtureKind.IslandCase, width * 0.4, y, 2.2, 6, new(width * 0.4, y), new(width * 0.4, y + 6), false) with
            {
                Back = new PlanLine([new((width * 0.4) + 2.2, y), new((width * 0.4) + 2.2, y + 6)]),
            });
        }

        fixtures.Add(new Fixture
        {
            Id = "W1", Tag = "W1", Name = "Dairy cooler", Kind = FixtureKind.WalkIn, WalkInCircuit = "A1",
            Outline = [new(width - 6, 1), new(width - 1, 1), new(width - 1, 5), new(width - 6, 5)], Opening = new PlanSegment(new(width - 5, 5), new(width - 3.8, 5)),
            Coils = [new(width - 3, 1.6)],
        });
        return new Plan
        {
            Id = "sample-" + seed, Name = $"Sample & Sons no. {seed}", Units = units, Revision = 1 + random.Next(3), NorthDegrees = random.Value() < 0.5 ? random.Next(4) * 90 : null,
            Outline = [new(0, 0), new(width, 0), new(width, depth), new(0, depth)], Entrances = [new Entrance("E1", new(width * random.Value(), 0))],
            Rooms = [new Room("R1", "Bakery", RoomKind.Bakery, [new(width - 8, 6), new(width - 1, 6), new(width - 1, 11), new(width - 8, 11)], [new(new(width - 8, 7), new(width - 8, 8.5))], true, 3.5)],
            Obstacles = [.. Enumerable.Range(0, 3).Select(i => new Obstacle("G" + i, "shelving", [new(4 + (3 * i), 6), new(5 + (3 * i), 6), new(5 + (3 * i), 13), new(4 + (3 * i), 13)]))],
            Fixtures = fixtures, Equipment = [new Equipment("Q1", EquipmentKind.Rack, new(width - 2, depth - 4), "mezzanine", "A")],
            Drops = [.. fixtures.Where(f => f.Front is not null).Take(4).Select((f, i) => new Drop("D" + i, f.Outline[0] + new PlanPoint(0.4, 0.4), [f.Id]))],
            Pits = [.. fixtures.Where(f => f.Kind == FixtureKind.IslandCase).Take(2).Select((f, i) => new Pit("P" + i, PitKind.Pit, f.Outline, [f.Id]))],
            Pipes = [new Pipe("L1", new PlanLine([new(1, depth - 2), new(width - 2, depth - 2), new(width - 2, depth - 4)]), "ceiling", "A1")],
            Circuits = [new Circuit("A1", "A", [new Shutoff(null, "header 4")], null), new Circuit("B1", "B", [], null)],
            Systems = [new RefrigerationSystem("A", SystemType.Direct, "R-448A", 650), new RefrigerationSystem("B", SystemType.Direct, "R-744", 300)],
        };
    }
}
