using StoreMap.Benchmarks;

// Each benchmark prints a table; figures are of this machine. Run from the repository: dotnet run --project tests/StoreMap.Benchmarks -c Release -- field
return args switch
{
    ["field"] => FieldBenchmark.All(),
    ["field", var width, var height, var readings, var estimate] => FieldBenchmark.One(width, height, readings, estimate),
    ["sheets"] => SheetBenchmark.Run(),
    ["zones"] => ZonesBenchmark.All(),
    ["zones", var visit] => ZonesBenchmark.One(visit),
    ["opening"] => await OpeningBenchmark.Run(null),
    ["opening", var program] => await OpeningBenchmark.Run(program),
    ["routing"] => RoutingBenchmark.All(beside: false),
    ["routing", "beside"] => RoutingBenchmark.All(beside: true),
    ["routing", var file, var best] => RoutingBenchmark.Published(file, double.Parse(best, System.Globalization.CultureInfo.InvariantCulture)),
    ["routing", "store"] => RoutingBenchmark.Store(),
    _ => Usage(),
};

static int Usage()
{
    Console.Error.WriteLine("Benchmarks: field, sheets, zones, opening, opening PUBLISHED/storemap.dll, routing, routing beside, routing store, routing FILE.tsp BEST");
    return 2;
}
