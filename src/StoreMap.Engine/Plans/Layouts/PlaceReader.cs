using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace StoreMap.Plans;

/// <summary>Reads entrances, rooms, areas and obstacles. What lacks its geometry is reported and left out.</summary>
internal static class PlaceReader
{
    /// <summary>Height of a room that states none: 10 ft, common practice for back rooms.</summary>
    public const double DefaultRoomHeight = 10 * LengthUnits.MetresPerFoot;

    private const double LowestRoom = 1.5;
    private const double HighestRoom = 50;
    private const double ShortestEntry = 5;

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
        return new Room(reader.Element!, name, kind, outline, openings, aerosol, height) { Work = Work(reader, aerosol), Entry = Entry(reader) };
    }

    /// <summary>Reads a part of the floor that has hours.</summary>
    public static FloorArea? Area(FieldReader reader)
    {
        var name = reader.Text("name") ?? reader.Element!;
        var entry = reader.Require("entry", "the hours at which one may be there, [[\"21:00\", \"07:00\"]]") ? Entry(reader) : [];
        return reader.Ring("outline") is { } outline ? new FloorArea(reader.Element!, name, outline, entry) : null;
    }

    private static List<(TimeOnly From, TimeOnly To)> Work(FieldReader reader, bool aerosol)
    {
        var work = Hours(reader, "work");
        if (work.Count > 0 && !aerosol) reader.Warn("work", null, "work-without-aerosol", "Working hours matter for rooms with sprays only; say aerosol: true, or leave them out.");
        return work;
    }

    private static List<(TimeOnly From, TimeOnly To)> Entry(FieldReader reader)
    {
        var entry = Hours(reader, "entry");
        foreach (var (from, to) in entry.Where(e => (e.To - e.From).TotalMinutes < ShortestEntry))
            reader.Warn("entry", null, "entry-short", FormattableString.Invariant($"From {from:HH:mm} to {to:HH:mm} is too short to probe anything; no walk will fit in."));
        return entry;
    }

    private static List<(TimeOnly From, TimeOnly To)> Hours(FieldReader reader, string field)
    {
        var nodes = reader.List(field, 48);
        List<(TimeOnly, TimeOnly)> hours = [];
        for (var i = 0; i < nodes.Count; i++)
        {
            if (nodes[i] is JsonArray { Count: 2 } pair && Time(pair[0]) is { } from && Time(pair[1]) is { } to && from != to) hours.Add((from, to));
            else reader.Error($"{field}[{i}]", nodes[i], "time", "Hours are two different local times in quotes, such as [\"04:00\", \"12:00\"].");
        }

        return hours;
    }

    private static TimeOnly? Time(JsonNode? node) =>
        node?.GetValueKind() == JsonValueKind.String && TimeOnly.TryParseExact(node.GetValue<string>(), "HH:mm", CultureInfo.InvariantCulture, DateTimeStyles.None, out var time) ? time : null;

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
