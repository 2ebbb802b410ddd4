using System.Globalization;
using System.Text.Json;
using StoreMap.Surveys;

namespace StoreMap.Tests.Surveys;

/// <summary>The logs of Cases/sensor.</summary>
internal sealed record SensorCase(
    string File, string Signal, double BasePpm, SignalEvent[] Events, double Delay, double T90, double Rate,
    (double Delay, double DelayDeviation, double T90, double T90Deviation) Fitted,
    double[] Seconds, double[] Truth, double[] Response, double[] Log)
{
    public static IReadOnlyList<SensorCase> All { get; } = Load();

    public static TheoryData<string> Files => [.. All.Select(c => c.File)];

    public static TheoryData<string> StepsAndPulses => [.. All.Where(c => c.Signal != "ramp").Select(c => c.File)];

    public static SensorCase Of(string file) => All.Single(c => c.File == file);

    private static SensorCase[] Load()
    {
        using var cases = JsonDocument.Parse(CaseFiles.Text("sensor/cases.json"));
        return [.. cases.RootElement.EnumerateArray().Select(One)];
    }

    private static SensorCase One(JsonElement c)
    {
        var file = c.GetProperty("file").GetString()!;
        var rows = CaseFiles.Lines("sensor/" + file).Skip(1)
            .Select(l => l.Split(',').Select(v => double.Parse(v, CultureInfo.InvariantCulture)).ToArray()).ToArray();
        var fitted = c.GetProperty("fitted_with_truth_known");
        return new SensorCase(
            file, c.GetProperty("signal").GetString()!, Number(c, "base_ppm"),
            [
                .. c.GetProperty("events").EnumerateArray()
                    .Select(e => new SignalEvent(Number(e, "t_s"), Number(e, "jump_ppm"), Number(e, "slope_change_ppm_per_s"))),
            ],
            Number(c, "delay_s"), Number(c, "T90_s"), Number(c, "rate_hz"),
            (Number(fitted, "delay_s"), Number(fitted, "delay_sd"), Number(fitted, "T90_s"), Number(fitted, "T90_sd")),
            [.. rows.Select(r => r[0])], [.. rows.Select(r => r[1])], [.. rows.Select(r => r[2])], [.. rows.Select(r => r[3])]);
    }

    private static double Number(JsonElement e, string name) => e.GetProperty(name).GetDouble();
}
