namespace StoreMap.Sheets;

/// <summary>Names of the rooms.</summary>
internal static class RoomLabelsPass
{
    public static void AddLabels(PlanDrawing d)
    {
        var drawn = d.Plan.Fixtures.Select(f => f.Outline).Concat(d.Plan.Obstacles.Select(o => o.Outline)).Select(o => SheetBox.Around(d.Points(o))).ToList();
        foreach (var room in d.Plan.Rooms)
        {
            var box = SheetBox.Around(d.Points(room.Outline));
            var middle = d.To.Point(FixtureShape.Inside(room.Outline));
            var label = new PlanLabel
            {
                Lines = [.. SheetStyle.SmallMuted.Wrap(room.Name, Math.Max(12, box.Width - 2))], Style = SheetStyle.SmallMuted, Anchor = middle,
                Priority = LabelPriority.Room, Layer = "labels-rooms", Key = d.Words.Say("key.room", room.Name),
            };
            var spots = new List<LabelSpot> { new(middle) };
            for (var i = 0; i < 49; i++)
            {
                var x = box.X + (label.Width / 2) + 1 + ((box.Width - label.Width - 2) * (i % 7) / 6);
                var y = box.Y + (label.Height / 2) + 1 + ((box.Height - label.Height - 2) * (i / 7) / 6);
                if (box.Contains(new SheetPoint(x, y)) && FixtureShape.Contains(room.Outline, d.To.Plan(new SheetPoint(x, y)))) spots.Add(new(new(x, y)));
            }

            var ordered = spots.OrderBy(s => drawn.Count(b => b.Overlaps(label.BoxAt(s)))).ThenBy(s => s.Middle.DistanceTo(middle)).ToList();
            d.Labels.Add(label with { Spots = [.. ordered, .. LabelSpots.Rings(label, 6, 12, 20)] });
        }
    }
}
