namespace StoreMap.Plans;

/// <summary>Reads entrances, rooms and obstacles. What lacks its geometry is reported and left out.</summary>
internal static class PlaceReader
{
    /// <summary>Height of a room that states none: 10 ft, common practice for back rooms.</summary>
    public const double DefaultRoomHeight = 10 * LengthUnits.MetresPerFoot;

    private const double LowestRoom = 1.5;
    private const double HighestRoom = 50;

    /// <summary>Kinds of obstacle that StoreMap knows; any other word is kept, with a warning.</summary>
    public static IReadOnlyList<string> ObstacleKinds { get; } =
        ["shelving", "checkout", "column", "wall", "counter", "table", "display", "rack", "bin", "oven", "sink", "machine", "other"];

    /// <summary>Reads an entrance.</summary>
    public static Entrance? Entrance(FieldReader reader) =>
        reader.Require("at", "a point [x, y]") && reader.Point("at") is { } at ? new Entrance(reader.Element!, at) : null;

    /// <summary>Reads a room; a bakery is an aerosol room unless it says otherwise.</summary>
    public static Room? Room(FieldReader reader)
    {
        var kind = reader.Word<RoomKind>("kind") ?? RoomKind.Other;
        var name = reader.Text("name") ?? reader.Element!;
        var aerosol = reader.Flag("aerosol") ?? kind == RoomKind.Bakery;
        var height = reader.Length("height", LowestRoom, HighestRoom) ?? DefaultRoomHeight;
        if (reader.Ring("outline") is not { } outline) return null;
        var nodes = reader.List("openings");
        List<PlanSegment> openings = [];
        for (var i = 0; i < nodes.Count; i++)
        {
            if (OpeningReader.Read(reader, $"openings[{i}]", nodes[i], outline) is { } opening) openings.Add(opening);
        }

        if (nodes.Count == 0) reader.Warn("openings", null, "no-opening", "The room has no doorway, so nobody can walk into it; add openings: [[[x, y], [x, y]]].");
        return new Room(reader.Element!, name, kind, outline, openings, aerosol, height);
    }

    /// <summary>Reads an obstacle.</summary>
    public static Obstacle? Obstacle(FieldReader reader)
    {
        var kind = reader.Text("kind") ?? "other";
        if (!ObstacleKinds.Contains(kind))
        {
            reader.Warn("kind", reader["kind"], "obstacle-kind",
                $"{kind} is no known kind of obstacle; it blocks the walk like any other. Known are: {string.Join(", ", ObstacleKinds)}.");
        }

        return reader.Ring("outline") is { } outline ? new Obstacle(reader.Element!, kind, outline) : null;
    }
}
