namespace StoreMap.Walking;

/// <summary>A place where feet can be, in lattice steps, with the free angle around it.</summary>
internal readonly record struct Place(double X, double Y, Sector Around, int Region);

/// <summary>Finds where a point lies on the free floor, or the nearest place that does.</summary>
internal sealed class PlaceFinder(FloorBoundary boundary, double[] regionAreas)
{
    /// <summary>A pocket smaller than this holds nobody, square metres; points beside it are not moved into it.</summary>
    private const double StandingRoom = 0.25;

    /// <summary>The place at a point; null when it is not on the free floor.</summary>
    public Place? At(double x, double y)
    {
        var crossings = new int[regionAreas.Length];
        var b = boundary;
        for (var e = 0; e < b.EdgeCount; e++)
        {
            var (x1, y1, x2, y2) = (b.X[b.From[e]], b.Y[b.From[e]], b.X[b.To[e]], b.Y[b.To[e]]);
            if ((y1 > y && y2 > y) || (y1 < y && y2 < y) || (x1 < x && x2 < x)) continue;
            if (x1 == x && y1 == y) return AtCorner(b.From[e]);
            if (x2 == x && y2 == y) return AtCorner(b.To[e]);
            var side = Lattice.Side(x1, y1, x2, y2, x, y);
            if (side == 0)
            {
                // On the edge's line and within its heights: on the edge, or beside a level one.
                if (y1 != y2 || Math.Min(x1, x2) <= x) return OnEdge(e, x, y);
                continue;
            }

            // A ray to the right crosses an edge that reaches above it and starts at or below.
            if (y1 <= y != y2 <= y && (side > 0) == (y2 > y1)) crossings[b.Region[e]]++;
        }

        var region = Array.FindIndex(crossings, n => n % 2 == 1);
        return region < 0 ? null : new Place(x, y, Sector.Open, region);
    }

    /// <summary>The nearest place on the free floor to a point off it; of equals the first edge's.</summary>
    public Place Nearest(double x, double y)
    {
        var (best, bestEdge) = (double.PositiveInfinity, -1);
        var anyRoom = Array.Exists(regionAreas, a => a >= StandingRoom);
        for (var e = 0; e < boundary.EdgeCount; e++)
        {
            if (anyRoom && regionAreas[boundary.Region[e]] < StandingRoom) continue;
            var (nx, ny) = NearestOn(e, x, y);
            var square = ((nx - x) * (nx - x)) + ((ny - y) * (ny - y));
            if (square >= best) continue;
            (best, bestEdge) = (square, e);
        }

        return OnFloorNear(bestEdge, x, y);
    }

    /// <summary>The nearest point of a slanted edge falls between lattice points: takes the closest of those around it that is on the floor.</summary>
    private Place OnFloorNear(int edge, double x, double y)
    {
        var (nx, ny) = NearestOn(edge, x, y);
        var (cx, cy) = (Math.Round(nx), Math.Round(ny));
        for (var reach = 0; reach <= 2; reach++)
        {
            for (var dy = -reach; dy <= reach; dy++)
            {
                for (var dx = -reach; dx <= reach; dx++)
                {
                    if (Math.Max(Math.Abs(dx), Math.Abs(dy)) == reach && At(cx + dx, cy + dy) is { } place && place.Region == boundary.Region[edge]) return place;
                }
            }
        }

        return AtCorner(boundary.From[edge]);
    }

    private (double X, double Y) NearestOn(int edge, double x, double y)
    {
        var b = boundary;
        var (ax, ay) = (b.X[b.From[edge]], b.Y[b.From[edge]]);
        var (dx, dy) = (b.X[b.To[edge]] - ax, b.Y[b.To[edge]] - ay);
        var t = Math.Clamp((((x - ax) * dx) + ((y - ay) * dy)) / ((dx * dx) + (dy * dy)), 0, 1);
        return t == 1 ? (ax + dx, ay + dy) : (ax + (t * dx), ay + (t * dy));
    }

    private Place OnEdge(int edge, double x, double y)
    {
        var b = boundary;
        var (dx, dy) = (b.X[b.To[edge]] - b.X[b.From[edge]], b.Y[b.To[edge]] - b.Y[b.From[edge]]);
        return new Place(x, y, new Sector(dx, dy, -dx, -dy), b.Region[edge]);
    }

    /// <summary>Where blocks touch in a point, feet stand on the side of the larger floor, which has the lower number.</summary>
    private Place AtCorner(int corner)
    {
        var b = boundary;
        var best = b.SectorStart[corner];
        for (var s = best + 1; s < b.SectorStart[corner + 1]; s++)
        {
            if (b.SectorRegion[s] < b.SectorRegion[best]) best = s;
        }

        return new Place(b.X[corner], b.Y[corner], b.Sectors[best], b.SectorRegion[best]);
    }
}
