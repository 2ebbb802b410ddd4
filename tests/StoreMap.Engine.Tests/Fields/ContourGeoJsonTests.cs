using System.Text;
using NetTopologySuite.Algorithm;
using NetTopologySuite.Geometries;
using System.Text.Json;
using StoreMap.Fields;
using StoreMap.Plans;

namespace StoreMap.Tests.Fields;

public class ContourGeoJsonTests
{
    [Fact]
    public void Write_ReferenceField_FollowsRfc7946()
    {
        var (grid, values) = IsolinesTests.Reference();
        var lines = Isolines.Trace(grid, values, [8, 10]);
        var bands = Isobands.Trace(grid, values, [8, 10]);
        using var document = Write(lines, bands);
        var root = document.RootElement;
        Assert.Equal("FeatureCollection", root.GetProperty("type").GetString());
        Assert.Contains("plan metres", root.GetProperty("coordinates").GetString());
        var features = root.GetProperty("features").EnumerateArray().ToList();
        Assert.Equal(lines.Count + 2, features.Count);
        Assert.Equal(JsonValueKind.Null, features[^1].GetProperty("properties").GetProperty("high").ValueKind);
        foreach (var (band, feature) in bands.Zip(features.Skip(lines.Count)))
        {
            var polygons = feature.GetProperty("geometry").GetProperty("coordinates").EnumerateArray().ToList();
            var area = 0.0;
            foreach (var rings in polygons.Select(p => p.EnumerateArray().Select(Points).ToList()))
            {
                Assert.All(rings, r => Assert.Equal(r[0], r[^1]));
                // Section 3.1.6: exterior rings counter-clockwise, holes clockwise.
                Assert.True(Orientation.IsCCW(rings[0]));
                Assert.All(rings.Skip(1), r => Assert.False(Orientation.IsCCW(r)));
                var polygon = new Polygon(new LinearRing(rings[0]), [.. rings.Skip(1).Select(r => new LinearRing(r))]);
                Assert.True(polygon.IsValid);
                area += polygon.Area;
            }

            Assert.Equal(band.SquareMetres, area, 2);
        }
    }

    [Fact]
    public void Polygons_HoleInsideIslandInsideHole_GoesToTheNearestRing()
    {
        // Concentric squares, alternately in and out of the band.
        var values = new double[11 * 11];
        for (var i = 0; i < values.Length; i++) values[i] = 5 - Math.Max(Math.Abs((i % 11) - 5), Math.Abs((i / 11) - 5)) is 0 or 1 or 4 ? 9 : 0;
        values[60] = 0;
        var band = Isobands.TraceCells(new FieldGrid(new PlanPoint(0, 0), 1, 11, 11), values, null, [5])[0];
        var polygons = ContourGeoJson.Polygons(band);
        Assert.Equal(2, polygons.Count);
        Assert.All(polygons, p => Assert.Equal(2, p.Count));
        Assert.All(polygons, p => Assert.True(Ring.SignedArea(p[0]) + Ring.SignedArea(p[1]) > 0));
    }

    private static JsonDocument Write(IReadOnlyList<Isoline> lines, IReadOnlyList<Isoband> bands)
    {
        using var stream = new MemoryStream();
        ContourGeoJson.Write(stream, lines, bands, "ppm");
        return JsonDocument.Parse(Encoding.UTF8.GetString(stream.ToArray()));
    }

    private static Coordinate[] Points(JsonElement ring) =>
        [.. ring.EnumerateArray().Select(p => new Coordinate(p[0].GetDouble(), p[1].GetDouble()))];
}
