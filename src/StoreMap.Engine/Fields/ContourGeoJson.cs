using System.Text.Json;
using NetTopologySuite.Algorithm;
using NetTopologySuite.Geometries;
using StoreMap.Plans;

namespace StoreMap.Fields;

/// <summary>Contours as a GeoJSON FeatureCollection (RFC 7946) in plan coordinates. RFC 7946 has longitude and latitude unless
/// otherwise arranged (section 4); the member <c>coordinates</c> of the collection states ours: metres, x right, y up, from the
/// layout's origin. Coordinates are rounded to 0.1 mm.</summary>
public static class ContourGeoJson
{
    private const int Decimals = 4;

    /// <summary>Writes lines as LineString features and bands as MultiPolygon features.</summary>
    /// <param name="stream">Receives UTF-8 text.</param>
    /// <param name="lines">Lines; may be empty.</param>
    /// <param name="bands">Bands; may be empty. An open upper or lower end is written as null.</param>
    /// <param name="unit">Unit of the levels, such as <c>ppm</c>.</param>
    public static void Write(Stream stream, IReadOnlyList<Isoline> lines, IReadOnlyList<Isoband> bands, string unit)
    {
        using var json = new Utf8JsonWriter(stream);
        json.WriteStartObject();
        json.WriteString("type", "FeatureCollection");
        json.WriteString("coordinates", "plan metres, x right, y up, from the layout's origin");
        json.WriteString("unit", unit);
        json.WriteStartArray("features");
        foreach (var line in lines) WriteLine(json, line);
        foreach (var band in bands) WriteBand(json, band);
        json.WriteEndArray();
        json.WriteEndObject();
    }

    /// <summary>Sorts a band's rings into polygons: each outer ring, counter-clockwise, followed by its holes, clockwise.</summary>
    internal static List<List<IReadOnlyList<PlanPoint>>> Polygons(Isoband band)
    {
        var outers = band.Rings.Where(r => Ring.SignedArea(r) > 0).OrderBy(Ring.SignedArea).ToList();
        var polygons = outers.ConvertAll(r => new List<IReadOnlyList<PlanPoint>> { r });
        var rings = outers.ConvertAll(Closed);
        foreach (var hole in band.Rings.Where(r => Ring.SignedArea(r) < 0))
        {
            // The smallest outer ring around a hole is the one it is cut from.
            var owner = rings.FindIndex(r => Holds(r, hole));
            if (owner >= 0) polygons[owner].Add(hole);
        }

        return polygons;
    }

    private static bool Holds(Coordinate[] outer, IReadOnlyList<PlanPoint> hole)
    {
        foreach (var p in hole)
        {
            var place = PointLocation.LocateInRing(new Coordinate(p.X, p.Y), outer);
            if (place != Location.Boundary) return place == Location.Interior;
        }

        return false;
    }

    private static Coordinate[] Closed(IReadOnlyList<PlanPoint> ring) =>
        [.. ring.Append(ring[0]).Select(p => new Coordinate(p.X, p.Y))];

    private static void WriteLine(Utf8JsonWriter json, Isoline line)
    {
        json.WriteStartObject();
        json.WriteString("type", "Feature");
        json.WriteStartObject("properties");
        json.WriteNumber("level", line.Level);
        json.WriteBoolean("closed", line.Closed);
        json.WriteEndObject();
        json.WriteStartObject("geometry");
        json.WriteString("type", "LineString");
        json.WritePropertyName("coordinates");
        WritePoints(json, line.Points);
        json.WriteEndObject();
        json.WriteEndObject();
    }

    private static void WriteBand(Utf8JsonWriter json, Isoband band)
    {
        json.WriteStartObject();
        json.WriteString("type", "Feature");
        json.WriteStartObject("properties");
        WriteEnd(json, "low", band.Low);
        WriteEnd(json, "high", band.High);
        json.WriteEndObject();
        json.WriteStartObject("geometry");
        json.WriteString("type", "MultiPolygon");
        json.WriteStartArray("coordinates");
        foreach (var polygon in Polygons(band))
        {
            json.WriteStartArray();
            foreach (var ring in polygon) WritePoints(json, [.. ring, ring[0]]);
            json.WriteEndArray();
        }

        json.WriteEndArray();
        json.WriteEndObject();
        json.WriteEndObject();
    }

    private static void WriteEnd(Utf8JsonWriter json, string name, double level)
    {
        if (double.IsFinite(level)) json.WriteNumber(name, level);
        else json.WriteNull(name);
    }

    private static void WritePoints(Utf8JsonWriter json, IReadOnlyList<PlanPoint> points)
    {
        json.WriteStartArray();
        foreach (var p in points)
        {
            json.WriteStartArray();
            json.WriteNumberValue(Math.Round(p.X, Decimals));
            json.WriteNumberValue(Math.Round(p.Y, Decimals));
            json.WriteEndArray();
        }

        json.WriteEndArray();
    }
}
