using System.Globalization;
using StoreMap.Plans;

namespace StoreMap.Surveys;

/// <summary>Where a row says it was taken, as written; numbers in layout units.</summary>
internal readonly record struct PlaceText(
    string? Point, string? Fixture, double? Along, double? FromLeft, bool OnBack, double? X, double? Y)
{
    public bool HasXy => X is not null && Y is not null;

    public bool IsEmpty => Point is null && Fixture is null && !HasXy;
}

/// <summary>Puts a row's place on the plan: a probe point, a fixture and a distance, or x, y.</summary>
internal sealed class PlaceFinder
{
    private readonly Plan plan;
    private readonly double unit;
    private readonly Dictionary<string, ProbePoint> points = new(StringComparer.OrdinalIgnoreCase);
    private readonly Dictionary<string, Fixture?> fixtures = new(StringComparer.OrdinalIgnoreCase);

    /// <summary>Prepares a plan.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="points">Its probe points; may be empty.</param>
    /// <param name="lengths">The unit of distances and coordinates in the file.</param>
    public PlaceFinder(Plan plan, IReadOnlyList<ProbePoint> points, LengthUnit lengths)
    {
        (this.plan, Lengths) = (plan, lengths);
        unit = lengths.InMetres();
        foreach (var point in points) this.points.TryAdd(point.Id, point);
        foreach (var fixture in plan.Fixtures) fixtures.TryAdd(fixture.Id, fixture);
        foreach (var group in plan.Fixtures.GroupBy(f => f.Tag, StringComparer.OrdinalIgnoreCase))
        {
            // A tag that two fixtures share names neither of them.
            fixtures.TryAdd(group.Key, group.Count() == 1 ? group.First() : null);
        }
    }

    /// <summary>The unit of distances and coordinates in the file.</summary>
    public LengthUnit Lengths { get; }

    /// <summary>True for survey files, whose places were found when the readings were taken.</summary>
    public bool KeepsPlaces { get; init; }

    /// <summary>True for surveys of another revision of the layout: a fixture that is gone since is kept where it was.</summary>
    public bool OtherRevision { get; init; }

    /// <summary>A reading with what its probe point says of spot and height, where the row says nothing.</summary>
    public Reading WithPointsState(Reading reading)
    {
        if (reading.Place.Point is not { } id || !points.TryGetValue(id, out var point) || point.Fixture is null) return reading;
        return reading with { Spot = reading.Spot ?? point.Spot, Height = reading.Height ?? point.Height };
    }

    /// <summary>How long the probe is to be held at a place, seconds; null when it is no probe point or the point does not say.</summary>
    public double? DwellAt(ReadingPlace place) =>
        place.Point is { } id && points.TryGetValue(id, out var point) && point.DwellSeconds > 0 ? point.DwellSeconds : null;

    /// <summary>The place a row names; null after an error.</summary>
    public ReadingPlace? Find(string element, PlaceText text, SurveyProblems problems)
    {
        // A survey file keeps the place beside the point's id, and the place stands even when the points are planned anew.
        if (text.Point is { } id && !(KeepsPlaces && (text.Fixture is not null || text.HasXy)))
        {
            if (points.TryGetValue(id, out var point)) return AtPoint(point);
            if (text.Fixture is null && !text.HasXy)
            {
                problems.Error(element, "point", id, "reading-point", points.Count == 0
                    ? "There are no probe points to look this up in. Plan the route first, or give fixture and at, or x and y."
                    : "No probe point of this layout has this id. Use an id of the walk sheet, or give fixture and at, or x and y.");
                return null;
            }

            problems.Count(element, "point", id, "reading-point-unknown",
                "No probe point has this id; the place given beside it was used and the id kept.");
        }

        var place = text.Fixture is { } name ? AtFixture(element, name, text, problems)
            : text.HasXy ? AtXy(element, text, problems)
            : null;
        if (text.IsEmpty)
        {
            problems.Error(element, null, null, "reading-place",
                "The row has no place. Give a probe point, or fixture and at, or x and y.");
        }

        return place is null || text.Point is null ? place : place with { Point = text.Point };
    }

    private ReadingPlace AtPoint(ProbePoint point)
    {
        var fixture = plan.FindFixture(point.Fixture);
        return new ReadingPlace
        {
            Point = point.Id, Fixture = point.Fixture, Along = point.Along, OnBack = point.OnBack, At = point.At,
            Room = fixture?.Kind == FixtureKind.WalkIn ? fixture.Id : point.Room ?? PlanPlaces.RoomAt(plan, point.Stand),
        };
    }

    private ReadingPlace? AtFixture(string element, string name, PlaceText text, SurveyProblems problems)
    {
        var xy = text.HasXy ? new PlanPoint(text.X!.Value * unit, text.Y!.Value * unit) : (PlanPoint?)null;
        if (!fixtures.TryGetValue(name, out var fixture) || fixture is null)
        {
            if (OtherRevision && xy is { } was)
            {
                problems.Count(element, "fixture", name, "reading-fixture-gone",
                    "This fixture is not in this revision of the layout; its readings were kept where they were taken.");
                return new ReadingPlace
                {
                    Fixture = name, Along = text.Along * unit, OnBack = text.OnBack, At = was, Room = PlanPlaces.RoomAt(plan, was),
                };
            }

            problems.Error(element, "fixture", name, "reading-fixture", fixtures.ContainsKey(name)
                ? "More than one fixture has this tag. Give the fixture's id."
                : "No fixture of this layout has this id or tag.");
            return null;
        }

        var line = text.OnBack ? fixture.Back : fixture.Front;
        if (line is null)
        {
            if (text.OnBack)
            {
                problems.Error(element, "side", "back", "reading-side", "This fixture has no back to probe; only an island has one.");
                return null;
            }

            var inside = xy ?? PlanPlaces.PointOn(fixture, 0);
            return new ReadingPlace
            {
                Fixture = fixture.Id, At = inside, Room = fixture.Kind == FixtureKind.WalkIn ? fixture.Id : PlanPlaces.RoomAt(plan, inside),
            };
        }

        if (text.Along is not null && text.FromLeft is not null)
        {
            problems.Error(element, "from-left", null, "reading-at", "The row has both at and from-left. Give one of them.");
            return null;
        }

        // Facing an island's back, its left end is the front's right.
        var fromStart = text.FromLeft is { } left && text.OnBack == fixture.FrontStartsLeft ? (line.Length / unit) - left : text.FromLeft;
        if ((text.Along ?? fromStart ?? (xy is { } tip ? line.Project(tip).Along / unit : null)) is not { } at)
        {
            problems.Error(element, "at", null, "reading-at",
                "A reading on a case needs a distance: at from its front's first point, or from-left from its left end facing it, in layout units or as 14' 6\".");
            return null;
        }

        var along = at * unit;
        if (along < -SurveyDefaults.FrontEndSlackMetres || along > line.Length + SurveyDefaults.FrontEndSlackMetres)
        {
            var length = Math.Round(line.Length / unit, 3).ToString(CultureInfo.InvariantCulture);
            problems.Error(element, "at", at.ToString(CultureInfo.InvariantCulture), "reading-at",
                $"The distance lies beyond the front of {fixture.Tag}, which runs from 0 to {length} {Lengths.Symbol()}.");
            return null;
        }

        along = Math.Clamp(along, 0, line.Length);
        return new ReadingPlace
        {
            Fixture = fixture.Id, Along = along, OnBack = text.OnBack, At = xy ?? line.PointAt(along),
            Room = PlanPlaces.RoomAt(plan, PlanPlaces.InAisle(fixture, along, text.OnBack)),
        };
    }

    private ReadingPlace? AtXy(string element, PlaceText text, SurveyProblems problems)
    {
        var p = new PlanPoint(text.X!.Value * unit, text.Y!.Value * unit);
        if (!Rings.Covers(plan.Outline, p, SurveyDefaults.OutlineSlackMetres))
        {
            problems.Error(element, "x,y", string.Create(CultureInfo.InvariantCulture, $"{text.X}, {text.Y}"), "reading-outside",
                $"The place lies outside the store. Coordinates are in the layout's unit ({Lengths.Symbol()}), x right and y up.");
            return null;
        }

        var room = PlanPlaces.RoomAt(plan, p);
        if (plan.FindFixture(room) is { } walkIn) return new ReadingPlace { Fixture = walkIn.Id, At = p, Room = walkIn.Id };
        if (PlanPlaces.NearestFront(plan, p) is { } near)
        {
            return new ReadingPlace { Fixture = near.Fixture.Id, Along = near.Along, OnBack = near.OnBack, At = p, Room = room };
        }

        // Deeper in a case than the reach of its front is still that case's air.
        var within = plan.Fixtures.FirstOrDefault(f => f.Front is not null && Rings.Contains(f.Outline, p));
        return new ReadingPlace { Fixture = within?.Id, Along = within?.Front!.Project(p).Along, At = p, Room = room };
    }
}
