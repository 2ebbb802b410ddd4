namespace StoreMap.Tests;

/// <summary>Waits for what can't be asked of an element of the page: it is read again and again until it is as expected.</summary>
internal static class Wait
{
    /// <summary>What is waited for comes at once on a quiet machine; a busy one may take its time.</summary>
    public static readonly TimeSpan Patience = TimeSpan.FromMinutes(3);

    private static readonly TimeSpan Step = TimeSpan.FromMilliseconds(25);

    /// <summary>Reads until a condition holds.</summary>
    /// <param name="read">Reads.</param>
    /// <param name="holds">The condition.</param>
    /// <param name="step">How long after each time; null for some 25 ms.</param>
    /// <returns>What was read last; after three minutes that is what does not meet the condition, for the test to fail with.</returns>
    public static async Task<T> Until<T>(Func<Task<T>> read, Func<T, bool> holds, TimeSpan? step = null)
    {
        for (var began = TimeProvider.System.GetTimestamp(); ;)
        {
            var now = await read();
            if (holds(now) || TimeProvider.System.GetElapsedTime(began) > Patience) return now;
            await Task.Delay(step ?? Step, TestContext.Current.CancellationToken);
        }
    }

    /// <summary>Reads until it is what is expected, and fails when it never is.</summary>
    public static async Task Equal<T>(IEnumerable<T> expected, Func<Task<IReadOnlyList<T>>> read) =>
        Assert.Equal(expected, await Until(read, now => now.SequenceEqual(expected)));

    /// <inheritdoc cref="Equal{T}(IEnumerable{T}, Func{Task{IReadOnlyList{T}}})"/>
    public static async Task Equal<T>(T expected, Func<Task<T>> read)
        where T : IEquatable<T> => Assert.Equal(expected, await Until(read, now => now.Equals(expected)));
}
