using System.Globalization;
using StoreMap.Simulation.Stores;

namespace StoreMap.Evaluation;

/// <summary>What to run.</summary>
internal sealed record RunOptions
{
    public int Stores { get; init; } = 500;

    public ulong Seed { get; init; } = 1;

    public int First { get; init; }

    public int Threads { get; init; } = 2;

    /// <summary>Only stores of these cases; null for all.</summary>
    public IReadOnlyList<StoreCase>? Cases { get; init; }

    public bool Continuous { get; init; } = true;

    public bool Smallest { get; init; } = true;

    /// <summary>Follow the next best probe as well, in the first stores.</summary>
    public bool Advice { get; init; } = true;

    /// <summary>Ask an inference that knows every parameter as well.</summary>
    public bool Knowing { get; init; } = true;

    /// <summary>How many stores those are: each step is an answer to wait for.</summary>
    public const int AdvisedStores = 60;

    public string? Out { get; init; }

    public string? Dump { get; init; }

    public string? Detail { get; init; }

    /// <summary>Reads the arguments; null when they are not understood.</summary>
    public static RunOptions? Parse(string[] args)
    {
        var options = new RunOptions();
        for (var i = 0; i < args.Length; i++)
        {
            if (args[i] == "--quick")
            {
                options = options with { Continuous = false, Smallest = false, Advice = false, Knowing = false };
                continue;
            }

            if (args[i] == "--advice")
            {
                options = options with { Advice = true };
                continue;
            }

            if (args[i] == "--knowing")
            {
                options = options with { Knowing = true };
                continue;
            }

            if (i + 1 == args.Length) return null;
            var value = args[++i];
            _ = int.TryParse(value, NumberStyles.None, CultureInfo.InvariantCulture, out var number);
            switch (args[i - 1])
            {
                case "--stores" when number > 0: options = options with { Stores = number }; break;
                case "--seed": options = options with { Seed = (ulong)number }; break;
                case "--first": options = options with { First = number }; break;
                case "--threads" when number > 0: options = options with { Threads = number }; break;
                case "--out": options = options with { Out = value }; break;
                case "--detail": options = options with { Detail = value }; break;
                case "--cases" when Named(value) is { } cases: options = options with { Cases = cases }; break;
                case "--dump": options = options with { Dump = value }; break;
                default: return null;
            }
        }

        return options;
    }

    // Names of cases with commas between them; null when one is unknown.
    private static List<StoreCase>? Named(string value)
    {
        var cases = new List<StoreCase>();
        foreach (var name in value.Split(','))
        {
            if (!Enum.TryParse<StoreCase>(name, ignoreCase: true, out var found)) return null;
            cases.Add(found);
        }

        return cases;
    }
}
