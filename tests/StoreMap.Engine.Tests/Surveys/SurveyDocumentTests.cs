using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using CsCheck;
using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Tests.Surveys;

/// <summary>The survey file of docs/formats.md: read, refused with every error, and written without loss.</summary>
public class SurveyDocumentTests
{
    private const string Whole = """
        {
          "format": "storemap-survey/1",
          "store": "test-store",
          "units": "ft",
          "start": "2026-03-04T21:00:00-06:00",
          "layoutRevision": 1,
          "technicians": ["A. Reed"],
          "instruments": [
            {"id": "M1", "kind": "logging-ppm", "delay": 4.6, "t90": 6, "resolution": 1, "detectionLimit": 1, "range": 1000, "calibrated": "2026-01-15", "responses": [{"set": "R-404A", "actual": "R-448A", "factor": 1.25}], "case": "blue"},
            {"id": "M2", "kind": "hit", "delay": 5, "t90": 5, "resolution": 1, "detectionLimit": 3, "range": 1000}
          ],
          "protocol": {"step": 4.5},
          "zeroed": [{"time": "2026-03-04T21:30:00-06:00", "instrument": "M1"}],
          "readings": [
            {"time": "2026-03-04T21:05:00-06:00", "ppm": 12.5, "point": "C2-3", "fixture": "C2", "at": 10, "x": 30, "y": 30, "height": "mid", "spot": "front", "air": "fans-on", "battery": 80},
            {"time": "2026-03-04T21:06:00-06:00", "ppm": "<1", "shown": 0.4, "fixture": "C1", "at": 3.3, "x": 40.7, "y": 13, "height": "low", "air": "fans-off", "cooling": "off", "since": 90, "gas": "R-448A"},
            {"time": "2026-03-04T21:07:00.25-06:00", "ppm": 2.25, "deviation": 0.5, "shown": 1.5, "x": 80, "y": 50, "air": "fans-on"},
            {"time": "2026-03-04T21:08:00-06:00", "ppm": ">1000", "fixture": "I1", "at": 6, "side": "back", "x": 66, "y": 16, "air": "fans-on", "note": "by the \"valve\""},
            {"time": "2026-03-04T21:09:00-06:00", "ppm": ">3", "shown": 1, "fixture": "W1", "x": 50, "y": 55, "air": "fans-on", "instrument": "M2"}
          ],
          "coverage": [{"system": "A", "complete": false, "notChecked": ["roof"], "by": "A. Reed"}],
          "findings": [{"id": "F1", "fixture": "C2", "at": 10, "note": "bubbles", "photo": "p1"}],
          "weather": "rain"
        }

        """;

    /// <summary>A survey with every field there is.</summary>
    internal static Survey WholeSurvey => Read(Whole).Survey;

    private static SurveyDocument Read(string text, Plan? plan = null) =>
        SurveyDocument.Read(new MemoryStream(Encoding.UTF8.GetBytes(text)), "v.survey.json", plan ?? TestStore.Plan, TestStore.Points);

    private static string Written(SurveyDocument document)
    {
        using var stream = new MemoryStream();
        document.Write(stream);
        return Encoding.UTF8.GetString(stream.ToArray());
    }

    private static string[] Refused(string text) =>
    [
        .. Assert.Throws<RefusedInputException>(() => Read(text)).Problems
            .Where(p => p.Severity == Severity.Error).Select(p => $"{p.Element}: {p.Field}: {p.Rule}"),
    ];

    private static string Minimal(string readings, string more = "") =>
        $$"""{"format": "storemap-survey/1", "store": "test-store", "start": "2026-03-04T21:00:00-06:00", {{more}} "readings": [{{readings}}]}""";

    [Fact]
    public void Read_WholeFile_FillsTheSurvey()
    {
        var survey = Read(Whole).Survey;
        Assert.Equal((5, 2, "A. Reed"), (survey.Readings.Count, survey.Instruments.Count, survey.Technicians[0]));
        Assert.Equal((ReadingBound.Exact, 12.5, "C2-3"), (survey.Readings[0].Bound, survey.Readings[0].Ppm, survey.Readings[0].Place.Point));
        Assert.Equal((ReadingBound.Below, 1.0, 0.4), (survey.Readings[1].Bound, survey.Readings[1].Ppm, survey.Readings[1].Shown));
        Assert.Equal("R1", survey.Readings[2].Place.Room);
        Assert.True(survey.Readings[3].Place.OnBack);
        Assert.Equal((ReadingBound.AtLeast, 3.0), (survey.Readings[4].Bound, survey.Readings[4].Ppm));
        Assert.Equal(new DateOnly(2026, 1, 15), survey.Instruments[0].Calibrated);
        Assert.Equal(new GasResponse("R-404A", "R-448A", 1.25), Assert.Single(survey.Instruments[0].Responses));
        Assert.Equal("M1", survey.Zeroed[0].Instrument);
        Assert.Equal("roof", survey.Coverage[0].NotChecked[0]);
        Assert.Equal(10 * TestStore.Ft, survey.Findings[0].Along);
    }

    [Fact]
    public void Write_FileThatWasRead_IsTheSameText() => Assert.Equal(Written(Read(Whole)), Written(Read(Written(Read(Whole)))));

    [Fact]
    public void Of_SurveyThatWasRead_KeepsEveryFieldKnownAndUnknown() =>
        Assert.True(JsonNode.DeepEquals(JsonNode.Parse(Whole), SurveyDocument.Of(Read(Whole).Survey, TestStore.Plan).Root));

    [Fact]
    public void Of_AnySurveyFromACsv_ComesBackTheSame() =>
        Gen.Select(Gen.Double[0, 24], Gen.Double[-5, 1200], Gen.Double[0.5, 99.5], Gen.Double[0.5, 59.5], Gen.Int[0, 3]).Array[1, 8].Sample(rows =>
        {
            var text = "time,ppm,fixture,at,x,y,gas\n" + string.Concat(rows.Select((r, i) =>
            {
                var place = r.Item5 == 0 ? FormattableString.Invariant($",,{r.Item3:R},{r.Item4:R}") : FormattableString.Invariant($"C{r.Item5},{r.Item1:R},,");
                return FormattableString.Invariant($"2026-03-04 21:00:{i:00},{r.Item2:R},{place},R-448A\n");
            }));
            var survey = TestStore.Read(text).Survey;
            var back = Read(Written(SurveyDocument.Of(survey, TestStore.Plan))).Survey;
            Assert.Equal(survey.Instruments, back.Instruments);
            foreach (var (a, b) in survey.Readings.Zip(back.Readings))
            {
                Assert.Equal(a with { Place = a.Place with { At = b.Place.At, Along = b.Place.Along } }, b);
                // Lengths come back to the last bit where a double of the file's unit exists for them, else to one in 1e15.
                Assert.Equal(a.Place.At.X, b.Place.At.X, 1e-13);
                Assert.Equal(a.Place.At.Y, b.Place.At.Y, 1e-13);
                Assert.Equal(a.Place.Along ?? 0, b.Place.Along ?? 0, 1e-13);
            }

            var again = SurveyDocument.Of(back, TestStore.Plan);
            Assert.Equal(Written(SurveyDocument.Of(survey, TestStore.Plan)), Written(again));
        });

    [Fact]
    public void SurveyReader_TakesEither() => Assert.Equal(
        Read(Whole).Survey.Readings.Count,
        SurveyReader.Read(new MemoryStream([0xEF, 0xBB, 0xBF, .. Encoding.UTF8.GetBytes("\r\n" + Whole)]), "v.json", TestStore.Plan, []).Survey.Readings.Count);

    [Theory]
    [InlineData("", ": : json")]
    [InlineData("[]", ": : json-object")]
    [InlineData("{", ": line 1, byte 2: json")]
    [InlineData("{}", ": format: required")]
    [InlineData("{\"format\": \"storemap-survey/2\"}", ": format: format")]
    [InlineData("{\"format\": \"storemap-survey/0\"}", ": format: format")]
    [InlineData("{\"format\": \"storemap-layout/1\"}", ": format: format")]
    [InlineData("{\"format\": \"storemap-survey/1\"}", ": store: required|: start: required")]
    [InlineData("{\"format\": \"storemap-survey/1\", \"store\": \"elsewhere\", \"start\": \"soon\", \"units\": \"mile\"}", ": units: word|: store: survey-store|: start: reading-time")]
    public void Read_BrokenHeader_SaysWhatIsWrong(string text, string expected)
    {
        var errors = Refused(text);
        Assert.Equal(expected.Split('|').Order(), errors.Select(e => e.StartsWith(": line 1", StringComparison.Ordinal) && text.Length == 0 ? ": : json" : e).Order());
    }

    [Fact]
    public void Read_BrokenReadings_NamesEveryOne() => Assert.Equal(
        new[]
        {
            "readings[0]: time: required", "readings[1]: ppm: reading-ppm", "readings[2]: ppm: type", "readings[3]: point: reading-point",
            "readings[4]: fixture: reading-fixture", "readings[5]: instrument: survey-instrument", "readings[6]: spot: reading-spot",
            ": readings[7]: type", "readings[8]: x: type", "readings[8]: : reading-place", "readings[9]: : reading-place",
        }.Order(),
        Refused(Minimal("""
            {"ppm": 2, "point": "B1"},
            {"time": "2026-03-04T21:00", "ppm": "lots", "point": "B1"},
            {"time": "2026-03-04T21:00", "ppm": true, "point": "B1"},
            {"time": "2026-03-04T21:00", "ppm": 2, "point": "Q"},
            {"time": "2026-03-04T21:00", "ppm": 2, "fixture": "C77", "at": 3},
            {"time": "2026-03-04T21:00", "ppm": 2, "point": "B1", "instrument": "M9"},
            {"time": "2026-03-04T21:00", "ppm": 2, "point": "B1", "spot": "nose"},
            7,
            {"time": "2026-03-04T21:00", "ppm": 2, "x": "here", "y": 3},
            {"time": "2026-03-04T21:00", "ppm": 2}
            """)).Order());

    [Fact]
    public void Read_BrokenInstruments_NamesEveryOne() => Assert.Equal(
        new[]
        {
            "instruments[0]: id: required", "instruments[1]: kind: word", "instruments[1]: delay: number-range", "instruments[2]: range: instrument-range",
            "instruments[2]: calibrated: date", "instruments[2]: id: survey-instrument",
        }.Order(),
        Refused(Minimal("", """
            "instruments": [{"kind": "hit"}, {"id": "A", "kind": "nose", "delay": -1}, {"id": "A", "detectionLimit": 5, "range": 4, "calibrated": "soon"}],
            """)).Order());

    [Fact]
    public void Read_FixtureGoneInAnotherRevision_KeepsItsReadings()
    {
        var text = Minimal("""{"time": "2026-03-04T21:00", "ppm": 2, "fixture": "C9", "at": 4, "x": 50, "y": 20}""", "\"layoutRevision\": 3,");
        var document = Read(text);
        Assert.Equal(("C9", 4 * TestStore.Ft), (document.Survey.Readings[0].Place.Fixture, document.Survey.Readings[0].Place.Along));
        Assert.Equal(["survey-revision", "reading-fixture-gone"], document.Warnings.Select(w => w.Rule));
    }

    [Fact]
    public void Write_UnderADecimalComma_WritesPoints() =>
        Assert.Contains("\"at\": 3.3,", Written(SurveyDocument.Of(Read(Whole).Survey, TestStore.Plan)), StringComparison.Ordinal);
}
