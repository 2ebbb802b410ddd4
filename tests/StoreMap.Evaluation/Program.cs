using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using StoreMap.Evaluation;
using StoreMap.Simulation.Stores;

var options = RunOptions.Parse(args);
if (options is null)
{
    Console.Error.WriteLine("Usage: storemap-evaluation [--stores N] [--seed N] [--first N] [--threads N] [--quick] [--advice] [--knowing] [--cases NAME,NAME] [--dump FOLDER] [--out FILE.md] [--detail FILE.csv]");
    return 2;
}

var clock = Stopwatch.StartNew();
var judged = new Outcome?[options.Stores];
var done = 0;
using var stop = new CancellationTokenSource();
Console.CancelKeyPress += (_, e) =>
{
    // What is finished is reported, as a shorter run.
    e.Cancel = true;
    stop.Cancel();
};
var numbers = Partitioner.Create(Enumerable.Range(0, options.Stores), EnumerablePartitionerOptions.NoBuffering);
Parallel.ForEach(numbers, new ParallelOptions { MaxDegreeOfParallelism = options.Threads }, i =>
{
    if (stop.IsCancellationRequested) return;
    var store = StoreMaker.Make(options.Seed, options.First + i);
    if (options.Cases is { } only && !only.Contains(store.Case)) return;
    judged[i] = StoreJudge.Judge(store, new JudgeParts(options.Continuous, options.Smallest, options.Advice && i < RunOptions.AdvisedStores, options.Knowing, options.Dump));
    var count = Interlocked.Increment(ref done);
    if (count % 10 == 0) Console.Error.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{count} of {options.Stores} stores, {clock.Elapsed.TotalSeconds:0} s"));
});
Outcome[] outcomes = [.. (options.Cases is null ? judged.TakeWhile(o => o is not null) : judged).OfType<Outcome>()];
if (outcomes.Length == 0) return 130;
options = options with { Stores = outcomes.Length };

var report = Report.Write(outcomes, Introduction.Text(options, outcomes, clock.Elapsed));
if (options.Out is { } file)
{
    var folder = Path.Combine(Path.GetDirectoryName(Path.GetFullPath(file))!, Path.GetFileNameWithoutExtension(file));
    Directory.CreateDirectory(folder);
    File.WriteAllText(file, report);
    foreach (var (name, svg) in Plots.All(outcomes)) File.WriteAllText(Path.Combine(folder, name), svg);
    Console.WriteLine($"Wrote {file}");
}
else
{
    Console.Write(report);
}

if (options.Detail is { } detail) File.WriteAllText(detail, Detail.Csv(outcomes));
return 0;
