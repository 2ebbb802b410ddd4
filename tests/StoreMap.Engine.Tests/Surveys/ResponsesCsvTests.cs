using System.Text;
using StoreMap.Surveys;

namespace StoreMap.Tests.Surveys;

/// <summary>A monitor's response table: contract in docs/formats.md.</summary>
public class ResponsesCsvTests
{
    [Fact]
    public void Read_Table_NamesGasesAsTheStandardDoes() => Assert.Equal(
        [new GasResponse("R-404A", "R-448A", 1.25), new GasResponse("R-134a", "R-744", 3)],
        Read("set;actual;factor\nr404a;R 448A;1,25\nR134A;co2;3\n"));

    [Fact]
    public void Read_BrokenRows_NamesEveryOne() => Assert.Equal(
        [
            "row 2: factor: response-factor", "row 3: set: response-gas", "row 4: actual: response-gas", "row 5: factor: response-factor", "row 7: set: response-twice",
        ],
        Refused("set,actual,factor\nR-404A,R-448A,none\n,R-448A,1\nR-404A,,1\nR-404A,R-134a,0\nR-404A,R-22,1\nR-404A,R-22,2\n"));

    [Fact]
    public void Read_MissingColumns_NamesThem() =>
        Assert.Equal(["row 1: set: column-missing", "row 1: factor: column-missing"], Refused("gas,actual,ratio\nR-404A,R-448A,1\n"));

    [Fact]
    public void Build_TableOfTheMonitor_TurnsAWrongSettingIntoANumber()
    {
        var survey = TestStore.Read(
            "time,ppm,fixture,at,gas\n2026-03-04 21:00,0,C2,2,R-404A\n2026-03-04 21:01,10,C2,6,R-404A\n2026-03-04 21:02,0,C1,6,R-404A\n",
            new SurveyReadOptions { Responses = [new GasResponse("R-404A", "R-448A", 1.25)] }).Survey;
        var net = NetSurveyBuilder.Build(TestStore.Plan, survey);
        Assert.Equal(12.5, net.Readings[1].NetPpm, 0.01);
        Assert.DoesNotContain(net.Readings, r => r.HitOnly);
    }

    private static IReadOnlyList<GasResponse> Read(string text) => ResponsesCsv.Read(new MemoryStream(Encoding.UTF8.GetBytes(text)), "responses.csv");

    private static string[] Refused(string text) =>
        [.. Assert.Throws<RefusedInputException>(() => Read(text)).Problems.Where(p => p.Severity == Severity.Error).Select(p => $"{p.Element}: {p.Field}: {p.Rule}")];
}
