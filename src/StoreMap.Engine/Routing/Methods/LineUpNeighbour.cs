using StoreMap.Plans;

namespace StoreMap.Routing;

/// <summary>Carries a distance along a front over its end into the joined fixture.</summary>
internal static class LineUpNeighbour
{
    /// <summary>Fronts whose ends come this near are joined, metres (6 in of end panels).</summary>
    private const double Joined = 0.1524;

    /// <summary>Rounding of distances, metres.</summary>
    private const double Slack = 1e-6;

    /// <summary>The fixture and the distance on it; no fixture when the line-up ends before.</summary>
    public static (Fixture? On, double Along) At(Plan plan, Fixture fixture, double along)
    {
        var length = fixture.Front!.Length;
        if (along >= -Slack && along <= length + Slack) return (fixture, Math.Clamp(along, 0, length));
        var past = along < 0 ? -along : along - length;
        var end = fixture.Front.PointAt(along < 0 ? 0 : length);
        foreach (var other in plan.Fixtures.Where(f => f.LineUp is not null && f.LineUp == fixture.LineUp && f.Id != fixture.Id && f.Front is not null))
        {
            var front = other.Front!;
            if (past > front.Length) continue;
            if (front.PointAt(0).DistanceTo(end) <= Joined) return (other, past);
            if (front.PointAt(front.Length).DistanceTo(end) <= Joined) return (other, front.Length - past);
        }

        return (null, 0);
    }
}
