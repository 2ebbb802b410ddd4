using System.Globalization;
using System.Text.Json;

namespace StoreMap.Tests;

/// <summary>The analyst verbs through the program, against the reference values of the engine's cases: R gstat 2.1-0 (kriging, IDW,
/// variogram), contourpy 1.0.7 (contours), the true values of simulated logs (calibrate), scipy and R (trend).</summary>
public sealed class AnalystTests : IDisposable
{
    private readonly Runner run = new();

    public void Dispose() => run.Dispose();

    [Theory]
    [InlineData("idw", "idw2", null, 1e-9)]
    [InlineData("kriging", "ok_pred", "ok_var", 1e-8)]
    [InlineData("kriging", "ok_nmax16_pred", "ok_nmax16_var", 1e-8, "--nearest", "16")]
    public void Interpolate_Meuse_EqualsGstat(string method, string value, string? variance, double tolerance, params string[] more)
    {
        string[] variogram = method == "kriging" ? ["--variogram", "Sph,0.05,0.59,897"] : [];
        using var json = Json(["interpolate", Case("kriging", "meuse_zinc_points.csv"), "--at", Case("kriging", "meuse_zinc_predictions.csv"),
            "--method", method, "--columns", "x=x_m,y=y_m,value=log_zinc", .. variogram, .. more]);
        var expected = Table("kriging", "meuse_zinc_predictions.csv");
        var points = json.RootElement.GetProperty("points").EnumerateArray().ToList();
        Assert.Equal(60, points.Count);
        foreach (var (row, point) in expected.Zip(points))
        {
            Assert.Equal(row["id"], point.GetProperty("id").GetString());
            Close(Number(row[value]), point.GetProperty("value").GetDouble(), tolerance);
            if (variance is null) Assert.Equal(JsonValueKind.Null, point.GetProperty("variance").ValueKind);
            else Close(Number(row[variance]), point.GetProperty("variance").GetDouble(), tolerance);
        }

        if (variance == "ok_var") Assert.Equal(0.391749, json.RootElement.GetProperty("crossValidation").GetProperty("rootMeanSquare").GetDouble(), 1e-6);
    }

    [Fact]
    public void Interpolate_Fit_FindsGstatsVariogram()
    {
        using var json = Json(["interpolate", Case("kriging", "meuse_zinc_points.csv"), "--at", Case("kriging", "meuse_zinc_predictions.csv"),
            "--fit", "--columns", "x=x_m,y=y_m,value=log_zinc"]);
        var v = json.RootElement.GetProperty("variogram");
        Close(0.0506624268192, v.GetProperty("nugget").GetDouble(), 0.01);
        Close(0.59060780221, v.GetProperty("partialSill").GetDouble(), 0.01);
        Close(897.020909797, v.GetProperty("range").GetDouble(), 0.01);
        Assert.Equal(57, json.RootElement.GetProperty("bins")[0].GetProperty("pairs").GetInt32());
        Assert.Contains("Fitted variogram: spherical", run.Error);
    }

    /// <summary>The field is another model than kriging's; left-out points must be predicted about as well (kriging: 0.392) and its deviations hold.</summary>
    [Fact]
    public void Interpolate_Field_PredictsLeftOutPointsAsWellAsKriging()
    {
        using var json = Json(["interpolate", Case("kriging", "meuse_zinc_points.csv"), "--at", Case("kriging", "meuse_zinc_predictions.csv"),
            "--method", "field", "--columns", "x=x_m,y=y_m,value=log_zinc"]);
        var score = json.RootElement.GetProperty("crossValidation");
        Assert.InRange(score.GetProperty("rootMeanSquare").GetDouble(), 0.3, 0.392 * 1.05);
        Assert.InRange(score.GetProperty("deviationZ").GetDouble(), 0.8, 1.2);
        foreach (var (row, point) in Table("kriging", "meuse_zinc_predictions.csv").Zip(json.RootElement.GetProperty("points").EnumerateArray()))
        {
            Assert.InRange(point.GetProperty("value").GetDouble(), Number(row["ok_pred"]) - 0.6, Number(row["ok_pred"]) + 0.6);
        }
    }

    [Fact]
    public void Interpolate_PlainOutput_IsACsvWithIdsAndMayBeAFile()
    {
        var points = run.Write("p.csv", "x;y;value\n0;0;1,5\n2;0;2,5\n0;2;3,5\n");
        var at = run.Write("at.csv", "id,x,y\n\"a,b\",0,0\nc,1,1\n");
        Assert.Equal(0, run.Run("interpolate", points, "--at", at));
        Assert.StartsWith("id,x,y,value,deviation\n\"a,b\",0,0,1.5,\nc,1,1,2.5,\n", run.Out, StringComparison.Ordinal);
        Assert.Equal(0, run.Run("interpolate", points, "--at", at, "--variogram", "exp,0,1,2", "--out", run.PathOf("o.csv")));
        Assert.StartsWith("id,x,y,value,deviation\n\"a,b\",0,0,1.5,0\n", File.ReadAllText(run.PathOf("o.csv")), StringComparison.Ordinal);
    }

    [Fact]
    public void Interpolate_BadInput_NamesEveryErrorOfBothFiles()
    {
        var points = run.Write("p.csv", "x,y,value\n0,0,1\n1,zero,2\n2,0,\n");
        Assert.Equal(1, run.Run("interpolate", points, "--at", run.Write("at.csv", "x\n1\n")));
        foreach (var part in new[] { "row 3", "row 4", "The column y is missing" }) Assert.Contains(part, run.Error);
        var twice = run.Write("t.csv", "x,y,value\n0,0,1\n0,0,2\n1,0,2\n");
        var at = run.Write("one.csv", "x,y\n0,0\n");
        Assert.Equal(1, run.Run("interpolate", twice, "--at", at, "--variogram", "sph,0,1,2"));
        Assert.Contains("2 points lie at this place", run.Error);
        Assert.Equal(1, run.Run("interpolate", run.Write("few.csv", "x,y,value\n0,0,1\n1,0,2\n"), "--at", at, "--fit"));
        Assert.Contains("--variogram", run.Error);
        Assert.Equal(0, run.Run("interpolate", run.Write("same.csv", "x,y,value\n3,4,7\n"), "--at", at, "--method", "field"));
    }

    [Theory]
    [InlineData("--variogram", "cubic,0,1,2")]
    [InlineData("--variogram", "sph,0,0,2")]
    [InlineData("--variogram", "sph,0,1")]
    [InlineData("--method", "guess")]
    [InlineData("--nearest", "0")]
    public void Interpolate_WrongOption_IsWrongUsageNamingIt(string option, string value)
    {
        Assert.Equal(2, run.Run("interpolate", "p.csv", "--at", "a.csv", option, value));
        Assert.Contains(option, run.Error);
    }

    [Fact]
    public void Contour_ReferenceField_HasContourpysLengthsAndAreas()
    {
        using var expected = JsonDocument.Parse(File.ReadAllText(Case("contours", "field_a_contours.json")));
        var levels = expected.RootElement.GetProperty("levels").EnumerateArray().ToList();
        var list = string.Join(',', levels.Select(l => l.GetProperty("level").GetDouble().ToString(CultureInfo.InvariantCulture)));
        using var json = Json(["contour", Case("contours", "field_a_grid.csv"), "--levels", list, "--step", "0.5", "--out", run.PathOf("c.geojson")]);
        foreach (var (want, got) in levels.Zip(json.RootElement.GetProperty("levels").EnumerateArray()))
        {
            var tolerance = want.GetProperty("saddle_cells").GetInt32() == 0 ? 1e-6 : 0.005;
            Close(want.GetProperty("length_m").GetDouble(), got.GetProperty("length").GetDouble(), tolerance);
            Close(want.GetProperty("area_ge_m2").GetDouble(), got.GetProperty("areaAtOrAbove").GetDouble(), tolerance);
            Close(want.GetProperty("area_lt_m2").GetDouble(), got.GetProperty("areaBelow").GetDouble(), tolerance);
            Assert.Equal(want.GetProperty("lines").GetInt32(), got.GetProperty("lines").GetInt32());
            Assert.Equal(got.GetProperty("lines").GetInt32(), got.GetProperty("paths").GetArrayLength());
        }

        using var geo = JsonDocument.Parse(File.ReadAllText(run.PathOf("c.geojson")));
        Assert.Equal("FeatureCollection", geo.RootElement.GetProperty("type").GetString());
    }

    [Fact]
    public void Contour_ListOfPlaces_IsTheSameAsTheMatrix()
    {
        var matrix = run.Write("m.csv", "0,1,2\n1,2,3\n2,3,4\n");
        var list = run.Write("l.csv", "x,y,ppm\n" + string.Concat(Enumerable.Range(0, 9).Select(i => $"{i % 3},{i / 3},{(i % 3) + (i / 3)}\n")));
        using var a = Json(["contour", matrix, "--levels", "1.5"]);
        using var b = Json(["contour", list, "--levels", "1.5"]);
        Assert.Equal(a.RootElement.GetRawText(), b.RootElement.GetRawText());
        Close(1.5 * Math.Sqrt(2), a.RootElement.GetProperty("levels")[0].GetProperty("length").GetDouble(), 1e-12);
        Close(4 - (1.5 * 1.5 / 2), a.RootElement.GetProperty("levels")[0].GetProperty("areaAtOrAbove").GetDouble(), 1e-12);
    }

    [Theory]
    [InlineData("1,2\n3\n", "row 2")]
    [InlineData("1,2\n3,many\n", "row 2")]
    [InlineData("1,2\n", "two or more rows")]
    [InlineData("x,y,value\n0,0,1\n1,0,1\n0,1,1\n0.37,1,1\n0.9,0,1\n", "regular grid")]
    [InlineData("x,y,level\n0,0,1\n", "The column ppm is missing")]
    public void Contour_BrokenGrid_SaysWhereAndWhat(string text, string words)
    {
        Assert.Equal(1, run.Run("contour", run.Write("g.csv", text), "--levels", "1"));
        Assert.Contains(words, run.Error);
        Assert.Equal(2, run.Run("contour", run.PathOf("g.csv"), "--levels", "one"));
    }

    [Theory]
    [InlineData("01_step_d4p6_T6_1Hz.csv", "30.37", 4.6, 6)]
    [InlineData("03_pulse8_d4p6_T6_10Hz.csv", null, 4.6, 6)]
    public void Calibrate_ReferenceLog_FindsDelayAndT90(string file, string? start, double delay, double t90)
    {
        start ??= Start(file);
        using var json = Json(["calibrate", Case("sensor", file), "--starts", start, "--columns", "time=t_s,ppm=log_ppm"]);
        Assert.Equal(delay, json.RootElement.GetProperty("delaySeconds").GetDouble(), 0.5);
        Assert.Equal(t90, json.RootElement.GetProperty("t90Seconds").GetDouble(), 0.15 * t90);
        Assert.True(json.RootElement.GetProperty("delayDeviation").GetDouble() > 0);
    }

    [Fact]
    public void Calibrate_ClockTimes_AreTheLogsOwn()
    {
        var rows = File.ReadAllLines(Case("sensor", "01_step_d4p6_T6_1Hz.csv")).Skip(1).Select(l => l.Split(','))
            .Select(c => $"2026-09-01 23:{(int)(58 + (Number(c[0]) / 60)) % 60:00}:{(int)Number(c[0]) % 60:00},{c[3]}").Take(115);
        var log = run.Write("puff.csv", "time,ppm\n" + string.Join('\n', rows) + "\n");
        using var json = Json(["calibrate", log, "--starts", "23:58:30.37"]);
        Assert.Equal(4.6, json.RootElement.GetProperty("delaySeconds").GetDouble(), 0.5);
        Assert.Equal(1, run.Run("calibrate", log, "--starts", "soon"));
        Assert.Contains("08:15:30", run.Error);
        Assert.Equal(1, run.Run("calibrate", log, "--starts", "04:00:00"));
    }

    [Fact]
    public void Trend_ReferenceSeries_EqualScipyAndR()
    {
        using var json = Json(["trend", Case("stats", "mk_series.csv")]);
        using var expected = JsonDocument.Parse(File.ReadAllText(Case("stats", "mk_results.json")));
        var found = json.RootElement.GetProperty("series").EnumerateArray().ToDictionary(s => s.GetProperty("series").GetString()!);
        foreach (var want in expected.RootElement.EnumerateObject())
        {
            var got = found[want.Name];
            Assert.Equal(want.Value.GetProperty("S").GetInt64(), got.GetProperty("s").GetInt64());
            Close(want.Value.GetProperty("varS").GetDouble(), got.GetProperty("variance").GetDouble(), 1e-12);
            Assert.Equal(want.Value.GetProperty("Z").GetDouble(), got.GetProperty("z").GetDouble(), 1e-9);
            Assert.Equal(want.Value.GetProperty("sen_slope").GetDouble(), got.GetProperty("slope").GetDouble(), 1e-9);
            Assert.Equal(want.Value.GetProperty("sen_intercept").GetDouble(), got.GetProperty("intercept").GetDouble(), 1e-9);
            if (!got.GetProperty("exact").GetBoolean()) Assert.Equal(want.Value.GetProperty("p_two_sided").GetDouble(), got.GetProperty("p").GetDouble(), 1e-6);
        }
    }

    [Fact]
    public void Trend_DatesAndMissingValues_GiveASlopeADay()
    {
        var file = run.Write("s.csv", "series,t,value\nC2,2026-01-01,1\nC2,2026-01-11,3\nC2,2026-01-21,\nC2,2026-01-31,7\nC2,2026-02-10,9\nC2,2026-02-20,11\n");
        using var json = Json(["trend", file]);
        var c2 = json.RootElement.GetProperty("series")[0];
        Assert.Equal((5, 1, "rising", "day"), (c2.GetProperty("n").GetInt32(), c2.GetProperty("missing").GetInt32(), c2.GetProperty("trend").GetString(), c2.GetProperty("slopePer").GetString()));
        Assert.Equal(0.2, c2.GetProperty("slope").GetDouble(), 1e-12);
        Assert.Equal(1, run.Run("trend", run.Write("b.csv", "t,value\n2026-01-01,1\n5,2\nx,3\n6,y\n")));
        foreach (var row in new[] { "row 4", "row 5" }) Assert.Contains(row, run.Error);
    }

    [Fact]
    public void Map_At_GivesTheFieldWithItsDeviation()
    {
        var at = run.Write("at.csv", "id,x,y\nfront,99,138\nfar,-500,0\n");
        using var json = Json(["map", Runner.Demo("tern-hollow.layout.json"), Runner.Demo("2026-07-07.readings.csv"), "--at", at, "--out", run.PathOf("map")]);
        var points = json.RootElement.GetProperty("at").EnumerateArray().ToList();
        Assert.True(points[0].GetProperty("known").GetBoolean());
        Assert.InRange(points[0].GetProperty("ppm").GetDouble(), points[0].GetProperty("low").GetDouble(), points[0].GetProperty("high").GetDouble());
        Assert.True(points[0].GetProperty("deviation").GetDouble() > 0);
        Assert.Equal((JsonValueKind.Null, false), (points[1].GetProperty("ppm").ValueKind, points[1].GetProperty("known").GetBoolean()));
        Assert.StartsWith("id,x,y,ppm,deviation,low,high,exceedance,known,median\nfront,99,138,", File.ReadAllText(run.PathOf(Path.Combine("map", "values.csv"))), StringComparison.Ordinal);
    }

    private static string Case(string topic, string name) => Path.Combine(Runner.Root, "tests", "StoreMap.Engine.Tests", "Cases", topic, name);

    private static string Start(string file)
    {
        using var cases = JsonDocument.Parse(File.ReadAllText(Case("sensor", "cases.json")));
        return cases.RootElement.EnumerateArray().Single(c => c.GetProperty("file").GetString() == file).GetProperty("t0_s").GetDouble().ToString(CultureInfo.InvariantCulture);
    }

    private static List<Dictionary<string, string>> Table(string topic, string name)
    {
        var lines = File.ReadAllLines(Case(topic, name));
        var header = lines[0].Split(',');
        return [.. lines.Skip(1).Select(l => header.Zip(l.Split(',')).ToDictionary(p => p.First, p => p.Second))];
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private static void Close(double expected, double actual, double relative) => Assert.Equal(expected, actual, Math.Max(1e-12, Math.Abs(expected) * relative));

    private JsonDocument Json(string[] args)
    {
        Assert.True(run.Run([.. args, "--json"]) == 0, run.Error + run.Out);
        return JsonDocument.Parse(run.Out);
    }
}
