using System.Collections.Concurrent;

namespace StoreMap.App.Serving;

/// <summary>The reports being bound, one after another, and how far they are by the ids that the clients gave them.</summary>
internal sealed class ReportJobs : IDisposable
{
    /// <summary>Reports that wait while one is bound.</summary>
    public const int MostWaiting = 8;

    private readonly ConcurrentDictionary<(string Store, string Job), ReportProgress> running = new();

    // Drawing a pack takes a core for seconds; one at a time leaves the server free for those who log.
    private readonly SemaphoreSlim one = new(1);
    private int inLine;

    public void Dispose() => one.Dispose();

    /// <summary>Binds a report when its turn comes, away from the threads that answer requests.</summary>
    /// <param name="bind">Binds it.</param>
    /// <param name="cancel">Ends the wait.</param>
    /// <returns>What came of it; null, without a wait, when too many wait already.</returns>
    public async Task<T?> InTurn<T>(Func<T> bind, CancellationToken cancel)
        where T : class
    {
        try
        {
            if (Interlocked.Increment(ref inLine) > 1 + MostWaiting) return null;
            await one.WaitAsync(cancel);
            try
            {
                return await Task.Run(bind, cancel);
            }
            finally
            {
                one.Release();
            }
        }
        finally
        {
            Interlocked.Decrement(ref inLine);
        }
    }

    /// <summary>How far one is; null when none of this id is being bound for the store.</summary>
    public ReportProgress? Of(string store, string job) => running.GetValueOrDefault((store, job));

    /// <summary>Notes how far one is.</summary>
    /// <param name="store">Its store's id.</param>
    /// <param name="job">Its id; null for one that nobody asks after.</param>
    /// <param name="progress">What is being done; null once it is bound or stopped.</param>
    public void Tell(string store, string? job, ReportProgress? progress)
    {
        if (job is null) return;
        if (progress is null) running.TryRemove((store, job), out _);
        else running[(store, job)] = progress;
    }

    /// <summary>A sink for a named piece of work on a report.</summary>
    public IProgress<double> Sink(string store, string? job, string work) => new Telling(share => Tell(store, job, new ReportProgress(work, share)));

    private sealed class Telling(Action<double> tell) : IProgress<double>
    {
        public void Report(double value) => tell(value);
    }
}

/// <summary>How far a report is.</summary>
/// <param name="Work">What is being done, in words; null while another report is bound first.</param>
/// <param name="Share">How much of it is done, in [0, 1].</param>
internal sealed record ReportProgress(string? Work, double Share);
