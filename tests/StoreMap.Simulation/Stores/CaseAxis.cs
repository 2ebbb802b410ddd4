using StoreMap.Plans;

namespace StoreMap.Simulation.Stores;

/// <summary>The fixtures of a straight line-up laid on one axis, metres from its first end.</summary>
internal sealed class CaseAxis
{
    private readonly (Fixture Fixture, double Start, double End, bool Forward)[] members;

    public CaseAxis(IReadOnlyList<Fixture> fixtures)
    {
        var first = fixtures[0].Front!;
        var (origin, direction) = (first.PointAt(0), first.DirectionAt(0));
        var placed = fixtures.Select(f =>
        {
            var a = (f.Front!.PointAt(0) - origin).Dot(direction);
            var b = (f.Front.PointAt(f.Front.Length) - origin).Dot(direction);
            return (Fixture: f, Start: Math.Min(a, b), End: Math.Max(a, b), Forward: b >= a);
        }).OrderBy(m => m.Start).ToList();
        var zero = placed[0].Start;
        members = [.. placed.Select(m => (m.Fixture, m.Start - zero, m.End - zero, m.Forward))];
        Length = members[^1].End;
        Fixtures = [.. members.Select(m => m.Fixture)];
        Joints =
        [
            .. members.SelectMany(m => m.Fixture.Sections.Skip(1).Select(s => m.Forward ? m.Start + s.From : m.End - s.From))
                .Concat(members.Skip(1).Select(m => m.Start)).Order(),
        ];
    }

    public IReadOnlyList<Fixture> Fixtures { get; }

    public double Length { get; }

    /// <summary>Section ends inside the axis, ascending.</summary>
    public IReadOnlyList<double> Joints { get; }

    /// <summary>The axis place of a distance along a fixture's front.</summary>
    public double ToAxis(string fixture, double along)
    {
        var m = members.First(x => x.Fixture.Id == fixture);
        return m.Forward ? m.Start + along : m.End - along;
    }

    /// <summary>The fixture at an axis place, and the distance along its front.</summary>
    public (Fixture Fixture, double Along) At(double s)
    {
        var m = members[^1];
        foreach (var candidate in members)
        {
            if (s > candidate.End) continue;
            m = candidate;
            break;
        }

        return (m.Fixture, Math.Clamp(m.Forward ? s - m.Start : m.End - s, 0, m.Fixture.Front!.Length));
    }

    /// <summary>Line-ups of a plan: fixtures with a front, by line-up.</summary>
    public static IReadOnlyList<CaseAxis> Of(Plan plan) =>
        [.. plan.Fixtures.Where(f => f.Front is not null).GroupBy(f => f.LineUp ?? "\0" + f.Id).Select(g => new CaseAxis([.. g]))];
}
