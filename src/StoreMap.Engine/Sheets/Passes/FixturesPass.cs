using StoreMap.Plans;

namespace StoreMap.Sheets;

/// <summary>Fixtures: outline, sections, the side probed from, doors, walk-in doorways and coils, and the store's own tag.</summary>
internal static class FixturesPass
{
    private const double FrontInset = 0.75;

    /// <summary>Draws all fixtures.</summary>
    /// <param name="d">The drawing.</param>
    /// <param name="filled">True to fill them white; false lets a field show through.</param>
    public static void Draw(PlanDrawing d, bool filled)
    {
        d.Svg.Begin("fixtures", "fixtures", d.Words["plan.fixtures"]);
        foreach (var fixture in d.Plan.Fixtures)
        {
            d.Svg.Begin("fixture-" + fixture.Id, "fixture " + fixture.Kind.Kebab(), Describe(d, fixture));
            if (fixture.Kind == FixtureKind.WalkIn) DrawWalkIn(d, fixture, filled);
            else DrawCase(d, fixture, filled);
            d.Svg.End();
        }

        d.Svg.End();
    }

    /// <summary>Asks for a place for every tag: inside the fixture, else beside it with a leader. A frame keeps a tag from being read as a
    /// reading.</summary>
    public static void AddLabels(PlanDrawing d, IReadOnlySet<string> withHit)
    {
        if (d.Plan.Fixtures.Count > 0) d.Uses(LegendSymbol.Tag);
        var boxes = d.Plan.Fixtures.ToDictionary(f => f.Id, f => SheetBox.Around(d.Points(f.Outline)));
        foreach (var fixture in d.Plan.Fixtures)
        {
            var box = boxes[fixture.Id];
            var label = new PlanLabel
            {
                Lines = [fixture.Tag], Style = SheetStyle.SmallBold, Anchor = d.To.Point(FixtureShape.Inside(fixture.Outline)),
                Priority = withHit.Contains(fixture.Id) ? LabelPriority.FixtureWithHit : LabelPriority.Fixture, Layer = "labels-fixtures",
                Border = SheetStyle.Muted, Key = d.Words.Say("key.fixture", fixture.Tag, fixture.Name ?? d.Words["fixture." + fixture.Kind.Kebab()]),
            };
            var named = fixture.Name is { } name && (fixture.Kind == FixtureKind.WalkIn || name.Length <= 18)
                ? label with { Lines = [fixture.Tag, name], Style = SheetStyle.SmallBold }
                : null;
            var spots = new List<LabelSpot>();
            foreach (var turns in box.Width >= box.Height ? new[] { 0, 1 } : [1, 0]) spots.AddRange(Inside(label, box, turns));
            // A case with a hit must be named on the plan, however far its leader runs. On another case a tag would name that one.
            double[] rings = withHit.Contains(fixture.Id) ? [3, 4.5, 6, 8, 10, 12.5, 15, 21, 28, 36, 45] : [3, 6, 10, 15];
            var beside = LabelSpots.Rings(label, rings).ToLookup(spot => MeetsAny(label, spot, boxes.Values, box));
            spots.AddRange([.. beside[false], .. beside[true]]);
            if (named is not null && fixture.Kind == FixtureKind.WalkIn && named.Width <= box.Width - 1 && named.Height <= box.Height - 1)
            {
                var namedSpots = Inside(named, box, 0).ToList();
                d.Labels.Add(named with { Spots = [.. namedSpots, .. spots] });
                continue;
            }

            d.Labels.Add(label with { Spots = spots });
        }
    }

    // True when the label or its leader runs over a box other than its own.
    private static bool MeetsAny(PlanLabel label, LabelSpot spot, IReadOnlyCollection<SheetBox> boxes, SheetBox own)
    {
        const int Steps = 12;
        var step = (spot.Middle - label.Anchor) * (1.0 / Steps);
        var taken = label.BoxAt(spot);
        var reach = SheetBox.Around([label.Anchor, spot.Middle]);
        foreach (var box in boxes)
        {
            if (box == own) continue;
            if (box.Overlaps(taken)) return true;
            if (box.X > reach.Right || box.Right < reach.X || box.Y > reach.Bottom || box.Bottom < reach.Y) continue;
            for (var k = 0; k < Steps; k++)
            {
                if (box.Contains(label.Anchor + (step * k))) return true;
            }
        }

        return false;
    }

    private static IEnumerable<LabelSpot> Inside(PlanLabel label, SheetBox box, int turns)
    {
        var (w, h) = turns == 0 ? (label.Width, label.Height) : (label.Height, label.Width);
        // A line of text may stand a little over its own long sides, never past its ends into the case behind.
        var (overX, overY) = turns == 0 ? (0.0, 0.6) : (0.6, 0.0);
        if (w > box.Width + overX || h > box.Height + overY) yield break;
        var middle = box.Middle;
        double roomX = Math.Max(0, (box.Width - w) / 2), roomY = Math.Max(0, (box.Height - h) / 2);
        // Fine enough to find the gap between two readings on a front.
        for (var k = 0; k <= 18; k++)
        {
            var t = (k % 2 == 0 ? -k : k + 1) / 20.0;
            yield return new LabelSpot(new SheetPoint(middle.X + (t * roomX), middle.Y + (roomX > roomY ? 0 : t * roomY)), turns);
        }
    }

    private static string Describe(PlanDrawing d, Fixture f)
    {
        var parts = new List<string> { f.Tag };
        if (f.Name is not null) parts.Add(f.Name);
        parts.Add(d.Words["fixture." + f.Kind.Kebab()]);
        if (d.Plan.RefrigerantAt(f) is { } gas) parts.Add(gas);
        return string.Join(", ", parts);
    }

    private static void DrawCase(PlanDrawing d, Fixture f, bool filled)
    {
        d.Svg.Polygon(d.Points(f.Outline), new Paint(filled ? SheetStyle.FixtureFill : null, SheetStyle.Ink, SheetStyle.Wide));
        if (f.Kind == FixtureKind.SelfContained)
        {
            var box = SheetBox.Around(d.Points(f.Outline));
            d.Svg.Line(new(box.X, box.Bottom), new(box.Right, box.Y), Paint.Line(SheetStyle.Hair, SheetStyle.Rule));
            d.Uses(LegendSymbol.SelfContained);
        }

        if (f.Front is null) return;
        foreach (var section in f.Sections.Skip(1))
        {
            var a = f.Front.PointAt(section.From);
            var b = a - (f.OutwardAt(section.From) * FixtureShape.DepthAt(f, section.From));
            d.Svg.Line(d.To.Point(a), d.To.Point(b), Paint.Line(SheetStyle.Hair, SheetStyle.Muted));
        }

        DrawFront(d, f, f.Front);
        if (f.Back is not null) DrawFront(d, f, f.Back);
        if (f.Doors > 0) DrawDoors(d, f, f.Front);
        d.Uses(LegendSymbol.Front);
    }

    /// <summary>The side probed from: a second line just inside the outline.</summary>
    private static void DrawFront(PlanDrawing d, Fixture f, PlanLine line)
    {
        var inside = d.To.Point(FixtureShape.Inside(f.Outline));
        var points = d.Points(line.Points);
        for (var i = 0; i + 1 < points.Count; i++)
        {
            var length = points[i].DistanceTo(points[i + 1]);
            if (length < 0.5) continue;
            var along = (points[i + 1] - points[i]) * (1 / length);
            var normal = new SheetPoint(-along.Y, along.X);
            var toInside = inside - points[i];
            if ((normal.X * toInside.X) + (normal.Y * toInside.Y) < 0) normal *= -1;
            d.Svg.Line(points[i] + (normal * FrontInset), points[i + 1] + (normal * FrontInset), Paint.Line(SheetStyle.Medium));
        }
    }

    /// <summary>Doors: ticks outward of the front, one at each side of a door.</summary>
    private static void DrawDoors(PlanDrawing d, Fixture f, PlanLine front)
    {
        const double Tick = 0.9;
        for (var i = 0; i <= f.Doors; i++)
        {
            var along = front.Length * i / f.Doors;
            var p = d.To.Point(front.PointAt(along));
            d.Svg.Line(p, p + (d.To.Direction(f.OutwardAt(along)) * Tick), Paint.Line(SheetStyle.Narrow));
        }

        d.Uses(LegendSymbol.Doors);
    }

    private static void DrawWalkIn(PlanDrawing d, Fixture f, bool filled)
    {
        if (filled) d.Svg.Polygon(d.Points(f.Outline), Paint.Solid(SheetStyle.FixtureFill));
        IReadOnlyList<PlanSegment> openings = f.Opening is { } o ? [o] : [];
        foreach (var (a, b) in WallsPass.WithoutOpenings(f.Outline, openings))
        {
            d.Svg.Line(d.To.Point(a), d.To.Point(b), Paint.Line(1.0));
            d.Svg.Line(d.To.Point(a), d.To.Point(b), Paint.Line(0.4, SheetStyle.Paper));
        }

        foreach (var coil in f.Coils) CoilSymbol(d.Svg, d.To.Point(coil));
        d.Uses(LegendSymbol.WalkIn);
    }

    public static void CoilSymbol(SvgWriter svg, SheetPoint p)
    {
        svg.Rectangle(new SheetBox(p.X - 1.6, p.Y - 0.8, 3.2, 1.6), new Paint(SheetStyle.Paper, SheetStyle.Ink, SheetStyle.Narrow));
        svg.Polyline([p + new SheetPoint(-1.2, 0.4), p + new SheetPoint(-0.6, -0.4), p + new SheetPoint(0, 0.4), p + new SheetPoint(0.6, -0.4), p + new SheetPoint(1.2, 0.4)], Paint.Line(SheetStyle.Hair));
    }
}
