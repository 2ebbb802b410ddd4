using StoreMap.Plans;

namespace StoreMap.Air;

/// <summary>Whose edge a barrier is; decides between which air it stands.</summary>
internal enum BarrierKind
{
    /// <summary>Edge of an obstacle.</summary>
    Obstacle,

    /// <summary>Wall of a room.</summary>
    Room,

    /// <summary>Wall of a walk-in.</summary>
    WalkIn,

    /// <summary>Side of a case.</summary>
    Case,

    /// <summary>The end of a section inside a case.</summary>
    Section,
}

/// <summary>The part of a barrier that lets air through.</summary>
/// <param name="From">Start, as a share of the barrier's length, in [0, 1].</param>
/// <param name="To">End, in [0, 1], greater than <paramref name="From"/>.</param>
/// <param name="Openness">Share of the free passage, in [0, 1].</param>
internal readonly record struct Gap(double From, double To, double Openness);

/// <summary>A line of no thickness that air does not cross, save at its gaps.</summary>
/// <param name="A">One end.</param>
/// <param name="B">The other end; never equal to <paramref name="A"/>.</param>
/// <param name="Kind">Whose edge it is.</param>
/// <param name="Owner">Index of the room, fixture or obstacle in the plan's list.</param>
/// <param name="Gaps">In order along the line, not overlapping.</param>
internal sealed record Barrier(LatticePoint A, LatticePoint B, BarrierKind Kind, int Owner, IReadOnlyList<Gap> Gaps)
{
    /// <summary>The gaps that openings make in a line: every opening whose two ends lie within <paramref name="tolerance"/> of it.</summary>
    /// <param name="wall">The line, metres.</param>
    /// <param name="openings">Pieces to open and how far, metres.</param>
    /// <param name="tolerance">Largest distance off the line, metres.</param>
    public static IReadOnlyList<Gap> GapsOf(PlanSegment wall, IEnumerable<(PlanSegment Piece, double Openness)> openings, double tolerance)
    {
        var length = wall.Length;
        var direction = (wall.B - wall.A) * (1 / length);
        var raw = new List<Gap>();
        foreach (var (piece, openness) in openings)
        {
            var (a, b) = (piece.A - wall.A, piece.B - wall.A);
            if (Math.Abs(direction.Cross(a)) > tolerance || Math.Abs(direction.Cross(b)) > tolerance) continue;
            var (s, t) = (direction.Dot(a) / length, direction.Dot(b) / length);
            var gap = new Gap(Math.Clamp(Math.Min(s, t), 0, 1), Math.Clamp(Math.Max(s, t), 0, 1), openness);
            if (gap.To > gap.From) raw.Add(gap);
        }

        return WithoutOverlap(raw);
    }

    // Where two openings overlap, the one that starts first counts; the rest of the other follows it.
    private static List<Gap> WithoutOverlap(List<Gap> raw)
    {
        var gaps = new List<Gap>();
        var reached = 0.0;
        foreach (var gap in raw.OrderBy(g => g.From).ThenByDescending(g => g.Openness).ThenBy(g => g.To))
        {
            if (gap.To <= reached) continue;
            gaps.Add(gap with { From = Math.Max(gap.From, reached) });
            reached = gap.To;
        }

        return gaps;
    }
}
