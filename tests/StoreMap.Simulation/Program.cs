using StoreMap.Plans;
using StoreMap.Simulation;

if (args.Length != 1)
{
    Console.Error.WriteLine("Usage: storemap-simulation FOLDER   (the folder of tern-hollow.layout.json; its surveys are written beside it)");
    return 2;
}

using var stream = File.OpenRead(Path.Combine(args[0], "tern-hollow.layout.json"));
var plan = LayoutDocument.Read(stream, "tern-hollow.layout.json").Plan;
foreach (var number in new[] { 1, 2, 3 })
{
    var visit = DemoVisits.Number(plan, number);
    var shown = VisitSimulator.Run(visit.Scenario);
    var date = visit.Start.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);
    if (number < 3)
    {
        Write($"{date}.readings.csv", DemoFiles.Readings(visit, shown));
    }
    else
    {
        Write($"{date}.log.csv", DemoFiles.Log(visit, shown));
        Write($"{date}.marks.csv", DemoFiles.Marks(visit));
    }
}

return 0;

void Write(string name, string text)
{
    File.WriteAllText(Path.Combine(args[0], name), text);
    Console.WriteLine(name);
}
