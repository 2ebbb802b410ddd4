namespace StoreMap.Plans;

/// <summary>Reads equipment, pits, drops and pipes. What lacks its geometry is reported and left out.</summary>
internal static class PlantReader
{
    /// <summary>Reads equipment.</summary>
    public static Equipment? Equipment(FieldReader reader, LayoutElements elements)
    {
        var kind = reader.RequiredWord<EquipmentKind>("kind");
        var level = reader.Text("level") ?? "floor";
        var system = elements.Reference(reader, "system", LayoutLists.Systems);
        var at = reader.Require("at", "a point [x, y]") ? reader.Point("at") : null;
        return kind is { } k && at is { } p ? new Equipment(reader.Element!, k, p, level, system) : null;
    }

    /// <summary>Reads a pit, trench or chase.</summary>
    public static Pit? Pit(FieldReader reader, LayoutElements elements)
    {
        var kind = reader.Word<PitKind>("kind") ?? PitKind.Pit;
        var fixtures = elements.References(reader, "fixtures", LayoutLists.Fixtures);
        return reader.Ring("outline") is { } outline ? new Pit(reader.Element!, kind, outline, fixtures) : null;
    }

    /// <summary>Reads a drop.</summary>
    public static Drop? Drop(FieldReader reader, LayoutElements elements)
    {
        var fixtures = elements.References(reader, "fixtures", LayoutLists.Fixtures);
        return reader.Require("at", "a point [x, y]") && reader.Point("at") is { } at ? new Drop(reader.Element!, at, fixtures) : null;
    }

    /// <summary>Reads a pipe run.</summary>
    public static Pipe? Pipe(FieldReader reader, LayoutElements elements)
    {
        var level = reader.Text("level") ?? "ceiling";
        var circuit = elements.Reference(reader, "circuit", LayoutLists.Circuits);
        return reader.Require("path", "a line of two or more points [[x, y], …]") && reader.Line("path") is { } path
            ? new Pipe(reader.Element!, path, level, circuit)
            : null;
    }
}
