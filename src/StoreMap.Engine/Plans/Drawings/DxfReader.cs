using System.Globalization;

namespace StoreMap.Plans;

/// <summary>Reads a text DXF: lines, polylines with bulges, arcs, circles, ellipses and texts of the model, blocks expanded.</summary>
/// <remarks>Everything else (splines, hatches, dimensions, pictures) is counted and told. Layers that are frozen or off are left out.</remarks>
internal sealed class DxfReader
{
    /// <summary>How far a piece may lie from its curve, metres.</summary>
    public const double UsualSagitta = 0.001;

    private readonly DxfFile file;
    private readonly string? fileName;
    private readonly ProblemList problems;
    private readonly double metres;
    private readonly double sagitta;
    private readonly List<DrawnShape> shapes = [];
    private readonly List<DrawnLabel> labels = [];
    private readonly SortedDictionary<string, int> leftOut = new(StringComparer.Ordinal);
    private readonly HashSet<string> told = new(StringComparer.Ordinal);
    private int points;
    private int steps;

    private DxfReader(DxfFile file, string? fileName, ProblemList problems, double metres, double sagitta) =>
        (this.file, this.fileName, this.problems, this.metres, this.sagitta) = (file, fileName, problems, metres, sagitta);

    /// <summary>Reads a drawing.</summary>
    /// <param name="bytes">The file.</param>
    /// <param name="fileName">Its name, for messages.</param>
    /// <param name="unit">The drawing's unit where it does not say one, or says it wrong; null to take the file's.</param>
    /// <param name="problems">Takes what was left out.</param>
    /// <param name="sagitta">How far a piece may lie from its curve, metres.</param>
    /// <exception cref="RefusedInputException">No text DXF, no unit, or blocks that expand without end.</exception>
    public static Drawing Read(ReadOnlySpan<byte> bytes, string? fileName, LengthUnit? unit, ProblemList problems, double sagitta = UsualSagitta)
    {
        var file = DxfFile.Parse(DxfGroups.Read(bytes, problems, fileName));
        var said = Units(file.Units);
        if (unit is null && said is null)
        {
            throw DxfGroups.Refused(fileName, "dxf-units", "The drawing does not say what its unit is ($INSUNITS). Say it with --units ft, in, m or mm.");
        }

        var (layoutUnit, metres) = unit is { } given ? (given, given.InMetres()) : said!.Value;
        var reader = new DxfReader(file, fileName, problems, metres, sagitta);
        reader.Expand(file.Entities, Affine.Scale(metres, metres), "model", null, []);
        foreach (var (type, count) in reader.leftOut) problems.Warn(type, null, null, "dxf-entity", FormattableString.Invariant($"{count} of this kind are not read. Explode them to lines where the plan needs them."));
        return new Drawing(layoutUnit, reader.shapes, reader.labels);
    }

    private void Expand(IReadOnlyList<DxfEntity> entities, Affine map, string source, string? layer, IReadOnlyList<string> open)
    {
        foreach (var entity in entities)
        {
            if (++steps > 20 * DrawingLimits.MostShapes) throw TooMuch();
            var shown = entity.Layer == "0" && layer is not null ? layer : entity.Layer;
            if (file.Hidden.Contains(shown)) continue;
            if (entity.Bad is { } bad)
            {
                problems.Warn(At(bad.Line), entity.Type, bad.Value, "dxf-number", "This is no finite number; the entity is left out.");
            }
            else if (entity.Type == "INSERT")
            {
                Insert(entity, map, source, shown, open);
            }
            else if (entity.Type is "TEXT" or "MTEXT" or "ATTRIB")
            {
                Label(entity, map, shown);
            }
            else if (DxfCurves.Knows(entity.Type))
            {
                Shape(entity, map, source, shown);
            }
            else if (entity.Type is not ("ATTDEF" or "POINT" or "VIEWPORT" or "SEQEND"))
            {
                leftOut[entity.Type] = leftOut.GetValueOrDefault(entity.Type) + 1;
            }
        }
    }

    private void Insert(DxfEntity entity, Affine map, string source, string layer, IReadOnlyList<string> open)
    {
        var name = entity.Text(2)?.Trim() ?? "";
        if (!file.Blocks.TryGetValue(name, out var block))
        {
            if (told.Add(name)) problems.Warn(At(entity.Line), "INSERT", name, "dxf-block", "There is no block of this name; the insert is left out.");
            return;
        }

        if (open.Contains(name, StringComparer.OrdinalIgnoreCase) || open.Count >= DrawingLimits.MostDepth)
        {
            if (told.Add(name)) problems.Warn(At(entity.Line), "INSERT", name, "dxf-cycle", "The block holds itself, or blocks nest deeper than 16; this insert is left out.");
            return;
        }

        Expand(entity.Parts, map, source, layer, open);
        int columns = (int)Math.Clamp(entity.Number(70, 1), 1, 1000), rows = (int)Math.Clamp(entity.Number(71, 1), 1, 1000);
        var at = entity.Point(10);
        var placed = map.After(DxfCurves.Plane(entity)).After(Affine.Move(at.X, at.Y)).After(Affine.Turn(entity.Number(50, 0)));
        for (var row = 0; row < rows; row++)
        {
            for (var column = 0; column < columns; column++)
            {
                var cell = placed.After(Affine.Move(column * entity.Number(44, 0), row * entity.Number(45, 0)))
                    .After(Affine.Scale(entity.Number(41, 1), entity.Number(42, 1))).After(Affine.Move(-block.Base.X, -block.Base.Y));
                Expand(block.Entities, cell, $"{source}/{name}", layer, [.. open, name]);
            }
        }
    }

    private void Shape(DxfEntity entity, Affine map, string source, string layer)
    {
        var placed = map.After(DxfCurves.Plane(entity));
        var stretch = placed.Stretch;
        if (!(stretch > 0)) return;
        var (closed, course) = DxfCurves.Course(entity, sagitta / stretch);
        List<PlanPoint> mapped = [];
        foreach (var point in course.Select(placed.Of))
        {
            if (mapped.Count == 0 || mapped[^1] != point) mapped.Add(point);
        }

        if (mapped.Count < 2) return;
        if (mapped.Exists(p => !(Math.Abs(p.X) <= DrawingLimits.Farthest && Math.Abs(p.Y) <= DrawingLimits.Farthest)))
        {
            problems.Warn(At(entity.Line), entity.Type, null, "dxf-far", "It lies more than 100 km from the origin and is left out.");
            return;
        }

        points += mapped.Count;
        if (shapes.Count >= DrawingLimits.MostShapes || points > DrawingLimits.MostPoints) throw TooMuch();
        shapes.Add(new DrawnShape(entity.Type, layer, source, closed && mapped.Count > 2, mapped));
    }

    private void Label(DxfEntity entity, Affine map, string layer)
    {
        var aligned = entity.Type != "MTEXT" && (entity.Number(72, 0) != 0 || entity.Number(73, 0) != 0) && entity.Text(11) is not null;
        var at = map.After(DxfCurves.Plane(entity)).Of(entity.Point(aligned ? 11 : 10));
        if (labels.Count >= DrawingLimits.MostShapes) throw TooMuch();
        if (DxfText.Plain(entity) is { Length: > 0 } text && double.IsFinite(at.X) && double.IsFinite(at.Y)) labels.Add(new DrawnLabel(text, layer, at));
    }

    // Codes of $INSUNITS in the DXF reference; yards and centimetres have no layout unit of their own.
    private static (LengthUnit Unit, double Metres)? Units(int? code) => code switch
    {
        1 => (LengthUnit.Inch, LengthUnits.MetresPerFoot / 12),
        2 => (LengthUnit.Foot, LengthUnits.MetresPerFoot),
        4 => (LengthUnit.Millimetre, 0.001),
        5 => (LengthUnit.Metre, 0.01),
        6 => (LengthUnit.Metre, 1),
        10 => (LengthUnit.Foot, 3 * LengthUnits.MetresPerFoot),
        14 => (LengthUnit.Metre, 0.1),
        _ => null,
    };

    private static string At(int line) => string.Create(CultureInfo.InvariantCulture, $"line {line}");

    private RefusedInputException TooMuch() => DxfGroups.Refused(
        fileName, "dxf-too-much", "The drawing's blocks expand to more than 50,000 shapes or 1,000,000 points, more than a store's plan has. Remove blocks that the plan does not need.");
}
