using StoreMap.Plans;

namespace StoreMap.Tests.Zones.Forward;

/// <summary>A store for simulated visits: aisles along x, each with a line-up on either side, and walk-ins at the back.</summary>
internal sealed class ForwardStore
{
    private const double Foot = LengthUnits.MetresPerFoot;

    public required Plan Plan { get; init; }

    /// <summary>Per aisle, its two line-ups.</summary>
    public required IReadOnlyList<ForwardLineUp[]> Aisles { get; init; }

    /// <summary>Aisles of two facing line-ups; kinds, lengths, front directions and the plan's unit vary with the seed.</summary>
    public static ForwardStore Make(Random random, int aisles = 4, bool feet = true)
    {
        var fixtures = new List<Fixture>();
        var drops = new List<Drop>();
        var pipes = new List<Pipe>();
        var rows = new List<ForwardLineUp[]>();
        FixtureKind[] kinds = [FixtureKind.OpenCase, FixtureKind.DoorCase, FixtureKind.IslandCase, FixtureKind.ServiceCase];
        for (var a = 0; a < aisles; a++)
        {
            var bottom = a * 16 * Foot;
            var pair = new ForwardLineUp[2];
            for (var side = 0; side < 2; side++)
            {
                var kind = kinds[random.Next(kinds.Length) % (a == 0 ? 2 : 4)];
                // The lower side's front faces up, the upper one's faces down; the aisle between is 8 ft.
                var frontY = bottom + (side == 0 ? 3.5 : 11.5) * Foot;
                var backY = bottom + (side == 0 ? 0 : 15) * Foot;
                pair[side] = LineUp(random, $"L{a}{side}", kind, 5 * Foot, frontY, backY, fixtures, drops);
            }

            rows.Add(pair);
        }

        var width = rows.SelectMany(r => r).Max(l => l.Right) + (5 * Foot);
        var depth = (aisles * 16 * Foot) + (14 * Foot);
        pipes.Add(new Pipe("P1", new PlanLine([new(width / 2, 0), new(width / 2, depth - (14 * Foot))]), "ceiling", null));
        for (var w = 0; w < 2; w++)
        {
            var (left, bottom) = ((5 + (w * 22)) * Foot, aisles * 16 * Foot);
            PlanPoint[] ring = [new(left, bottom), new(left + (16 * Foot), bottom), new(left + (16 * Foot), bottom + (12 * Foot)), new(left, bottom + (12 * Foot))];
            fixtures.Add(new Fixture
            {
                Id = $"W{w + 1}", Tag = $"W{w + 1}", Kind = FixtureKind.WalkIn, Outline = ring,
                Opening = new PlanSegment(new(left + (6 * Foot), bottom), new(left + (10 * Foot), bottom)),
                Coils = [new(left + (4 * Foot), bottom + (11 * Foot)), new(left + (12 * Foot), bottom + (11 * Foot))],
                WalkInCircuit = "A1",
            });
        }

        return new ForwardStore
        {
            Aisles = rows,
            Plan = new Plan
            {
                Id = "forward", Name = "Forward", Units = feet ? LengthUnit.Foot : LengthUnit.Metre,
                Outline = [new(0, -1), new(width, -1), new(width, depth), new(0, depth)],
                Fixtures = fixtures, Drops = drops, Pipes = pipes,
                Circuits = [new Circuit("A1", "A", [], null)],
                Systems = [new RefrigerationSystem("A", SystemType.Direct, "R-448A", 600)],
            },
        };
    }

    private static ForwardLineUp LineUp(
        Random random, string id, FixtureKind kind, double left, double frontY, double backY, List<Fixture> fixtures, List<Drop> drops)
    {
        var faceUp = frontY > backY;
        var own = new List<Fixture>();
        var x = left;
        var count = random.Next(2, 4);
        for (var f = 0; f < count; f++)
        {
            var sections = Enumerable.Range(0, random.Next(1, 4)).Select(_ => (random.Next(2) == 0 ? 12 : 8) * Foot).ToArray();
            var length = sections.Sum();
            var forward = random.Next(2) == 0;
            var (start, end) = forward ? (new PlanPoint(x, frontY), new PlanPoint(x + length, frontY)) : (new PlanPoint(x + length, frontY), new PlanPoint(x, frontY));
            var parts = new List<Section>();
            var panels = new List<Panel>();
            var at = 0.0;
            for (var s = 0; s < sections.Length; s++)
            {
                parts.Add(new Section(s + 1, at, at + sections[s], 1, "A1"));
                var pieces = (int)Math.Ceiling((sections[s] / (4 * Foot)) - 1e-9);
                for (var p = 0; p < pieces; p++)
                {
                    var from = at + (sections[s] * p / pieces);
                    panels.Add(new Panel($"{id}{f}/{panels.Count + 1}", PanelKind.DeckPan, from, from + (sections[s] / pieces), 5));
                }

                at += sections[s];
            }

            var (low, high) = (Math.Min(frontY, backY), Math.Max(frontY, backY));
            // Facing the case, left is where the viewer's left hand is: looking down (-y) from above, +x is to the left.
            var startsLeft = faceUp ? start.X > end.X : start.X < end.X;
            var fixture = new Fixture
            {
                Id = $"{id}{f}", Tag = $"{id}{f}", Kind = kind, LineUp = id,
                Outline = [new(x, low), new(x + length, low), new(x + length, high), new(x, high)],
                Front = new PlanLine([start, end]), Sections = parts, Panels = panels, FrontStartsLeft = startsLeft,
                Doors = kind == FixtureKind.DoorCase ? (int)Math.Round(length / (2.5 * Foot)) : 0,
                ValveEnd = random.Next(2) == 0 ? CaseEnd.Left : CaseEnd.Right,
                Drains = [0.5, length - 0.5],
            };
            own.Add(fixture);
            fixtures.Add(fixture);
            drops.Add(new Drop($"D{id}{f}", new PlanPoint(x + (random.NextDouble() * length), (frontY + backY) / 2), [fixture.Id]));
            x += length;
        }

        return new ForwardLineUp(id, kind, [.. own], left, x, frontY);
    }
}

/// <summary>A line-up along x.</summary>
internal sealed record ForwardLineUp(string Id, FixtureKind Kind, Fixture[] Fixtures, double Left, double Right, double FrontY)
{
    public double Length => Right - Left;

    /// <summary>The fixture and place along its front at metres from the line-up's left end.</summary>
    public (Fixture Fixture, double Along) At(double s)
    {
        var x = Left + Math.Clamp(s, 0, Length);
        foreach (var fixture in Fixtures)
        {
            var (along, distance) = fixture.Front!.Project(new PlanPoint(x, FrontY));
            if (distance < 1e-6) return (fixture, along);
        }

        throw new InvalidOperationException("Off the line-up.");
    }

    /// <summary>Metres from the line-up's left end of every section end.</summary>
    public IEnumerable<double> Joints => Fixtures.SelectMany(f => f.Sections.Select(s => f.Front!.PointAt(s.To).X - Left)).Where(x => x > 0.01 && x < Length - 0.01).Distinct();
}
