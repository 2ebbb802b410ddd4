namespace StoreMap.Plans;

/// <summary>Where a fixture of a case list stands: an upright rectangle in the list's unit, faced from below.</summary>
internal sealed record CasePlace(CaseRow Row, double X, double Y, double Width, double Depth);

/// <summary>A made-up floor: its size in the list's unit and the place of every fixture.</summary>
internal sealed record CaseFloor(double Width, double Height, IReadOnlyList<CasePlace> Places);

/// <summary>Lays the fixtures of a case list out: line-ups end to end in rows across the store, walk-ins along the back, aisles of 8 ft all round.</summary>
/// <remarks>The rows are broken so that the store comes out about four to three, as stores do. The places are made up and say so in the layout.</remarks>
internal static class CaseListFloor
{
    private const double Aisle = 8 * LengthUnits.MetresPerFoot;
    private const double FrontOfStore = 16 * LengthUnits.MetresPerFoot;
    private const double Aspect = 4.0 / 3;

    // Widths tried, from the longest line-up to everything in one row.
    private const int Tries = 200;

    /// <summary>Arranges all rows of a list.</summary>
    public static CaseFloor Arrange(IReadOnlyList<CaseRow> rows, LengthUnit unit)
    {
        double Units(double metres) => Round(Math.Ceiling(Math.Round(unit.FromMetres(metres) / Step(unit), 6)) * Step(unit));
        double Depth(CaseRow row) => row.Kind == FixtureKind.WalkIn ? row.Lengths[1] : Units(CaseDepth(row.Kind));
        var (aisle, head) = (Units(Aisle), Units(FrontOfStore));

        var groups = Groups(rows);
        var longest = groups.Max(g => g.Sum(r => r.Front));
        var all = groups.Sum(g => g.Sum(r => r.Front) + aisle);
        return Enumerable.Range(0, Tries).Select(k => longest + (k * Math.Max(0, all - longest) / Tries))
            .Select(width => Place(groups, width, aisle, head, Depth)).MinBy(f => Math.Abs(Math.Log(f.Width / f.Height / Aspect)))!;
    }

    private static CaseFloor Place(List<List<CaseRow>> groups, double width, double aisle, double head, Func<CaseRow, double> depth)
    {
        List<CasePlace> places = [];
        var y = head;
        foreach (var line in Lines(groups, width, aisle))
        {
            var x = aisle;
            foreach (var row in line.SelectMany((g, i) => i == 0 ? g : g.Prepend(null)))
            {
                if (row is not null) places.Add(new CasePlace(row, x, y, row.Front, depth(row)));
                x = Round(x + (row?.Front ?? aisle));
            }

            y = Round(y + line.Max(g => g.Max(depth)) + aisle);
        }

        return new CaseFloor(Round(Math.Ceiling(places.Max(p => p.X + p.Width) + aisle)), y, places);
    }

    // Members of a line-up join in the order of the list, all else stands alone; walk-ins come last, at the back.
    private static List<List<CaseRow>> Groups(IReadOnlyList<CaseRow> rows)
    {
        List<List<CaseRow>> groups = [];
        Dictionary<string, List<CaseRow>> lineUps = new(StringComparer.Ordinal);
        foreach (var row in rows.OrderBy(r => r.Kind == FixtureKind.WalkIn))
        {
            if (row.LineUp is null || row.Kind == FixtureKind.WalkIn)
            {
                groups.Add([row]);
            }
            else if (lineUps.TryGetValue(row.LineUp, out var lineUp))
            {
                lineUp.Add(row);
            }
            else
            {
                groups.Add(lineUps[row.LineUp] = [row]);
            }
        }

        return groups;
    }

    // A line holds cases or walk-ins, never both: a walk-in's depth would waste the floor behind the cases.
    private static IEnumerable<List<List<CaseRow>>> Lines(List<List<CaseRow>> groups, double width, double aisle)
    {
        List<List<CaseRow>> line = [];
        var used = 0.0;
        foreach (var group in groups)
        {
            var length = group.Sum(r => r.Front);
            var kindChanges = line.Count > 0 && (line[0][0].Kind == FixtureKind.WalkIn) != (group[0].Kind == FixtureKind.WalkIn);
            if (line.Count > 0 && (kindChanges || used + aisle + length > width))
            {
                yield return line;
                line = [];
            }

            used = line.Count == 0 ? length : used + aisle + length;
            line.Add(group);
        }

        if (line.Count > 0) yield return line;
    }

    // Usual depths: multideck and reach-in about 3.5 ft, service 4 ft, twin island 8 ft, plug-in 2.5 ft.
    private static double CaseDepth(FixtureKind kind) => LengthUnits.MetresPerFoot * kind switch
    {
        FixtureKind.IslandCase => 8,
        FixtureKind.ServiceCase => 4,
        FixtureKind.SelfContained => 2.5,
        _ => 3.5,
    };

    private static double Step(LengthUnit unit) => unit switch
    {
        LengthUnit.Metre => 0.1,
        LengthUnit.Foot => 0.5,
        LengthUnit.Inch => 6,
        _ => 100,
    };

    private static double Round(double value) => Math.Round(value, 4);
}
