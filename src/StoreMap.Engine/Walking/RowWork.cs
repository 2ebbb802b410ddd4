namespace StoreMap.Walking;

/// <summary>Does independent rows of work on all cores where there are any, in order on one thread in the browser. Each row writes only
/// its own results, so the answer is the same on any number of threads.</summary>
internal static class RowWork
{
    /// <summary>Runs all rows.</summary>
    /// <param name="count">Number of rows.</param>
    /// <param name="scratch">Makes the working memory of one thread.</param>
    /// <param name="row">Does one row.</param>
    /// <param name="threads">Most threads, at least 1; -1 for all cores.</param>
    /// <param name="cancellation">Stops the work.</param>
    public static void Run<TScratch>(int count, Func<TScratch> scratch, Action<int, TScratch> row, int threads, CancellationToken cancellation)
    {
        if (threads == 1 || OperatingSystem.IsBrowser())
        {
            var own = scratch();
            for (var i = 0; i < count; i++)
            {
                cancellation.ThrowIfCancellationRequested();
                row(i, own);
            }

            return;
        }

        var options = new ParallelOptions { CancellationToken = cancellation, MaxDegreeOfParallelism = threads };
        Parallel.For(0, count, options, scratch, (i, _, own) =>
        {
            row(i, own);
            return own;
        }, _ => { });
    }
}
