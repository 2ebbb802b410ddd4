using System.Globalization;
using System.Text;
using StoreMap.Simulation.Stores;

namespace StoreMap.Evaluation;

/// <summary>Writes a simulated visit as files that the program reads, with the truth beside them.</summary>
internal static class Dump
{
    public static void Write(SimulatedStore store, Surveyor surveyor, IReadOnlyList<string> stages, string folder)
    {
        var here = Path.Combine(folder, store.Number.ToString(CultureInfo.InvariantCulture));
        Directory.CreateDirectory(here);
        using (var stream = File.Create(Path.Combine(here, "store.layout.json"))) store.Layout.Write(stream);
        string[] names = ["coarse.csv", "close-in.csv", "fans-off.csv"];
        for (var i = 0; i < stages.Count; i++) File.WriteAllText(Path.Combine(here, names[i]), stages[i]);
        var unit = store.Plan.Units.InMetres();
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"{store.Roughness} {store.Case}, layout units, monitor step {surveyor.Monitor.StepPpm} limit {surveyor.Monitor.DetectionPpm} range {surveyor.Monitor.RangePpm}\n");
        foreach (var leak in store.Leaks) text.Append(CultureInfo.InvariantCulture, $"{leak.Site} {leak.Fixture} at {leak.Along / unit:0.00} ({leak.At.X / unit:0.0}, {leak.At.Y / unit:0.0}) {leak.OuncesPerDay:0.0} oz a day, still factor {leak.StillFactor:0.00}\n");
        File.WriteAllText(Path.Combine(here, "truth.txt"), text.ToString());
    }
}
