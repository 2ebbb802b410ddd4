using System.Collections.Concurrent;

namespace StoreMap.App.Serving;

/// <summary>How far the reports being bound are, by the ids that the clients gave them.</summary>
internal sealed class ReportJobs
{
    private readonly ConcurrentDictionary<string, ReportProgress> running = new(StringComparer.Ordinal);

    /// <summary>How far one is; null when none of this id is being bound.</summary>
    public ReportProgress? Of(string job) => running.GetValueOrDefault(job);

    /// <summary>Notes how far one is.</summary>
    /// <param name="job">Its id; null for one that nobody asks after.</param>
    /// <param name="progress">What is being done; null once it is bound or stopped.</param>
    public void Tell(string? job, ReportProgress? progress)
    {
        if (job is null) return;
        if (progress is null) running.TryRemove(job, out _);
        else running[job] = progress;
    }

    /// <summary>A sink for a named piece of work on a report.</summary>
    public IProgress<double> Sink(string? job, string work) => new Telling(share => Tell(job, new ReportProgress(work, share)));

    private sealed class Telling(Action<double> tell) : IProgress<double>
    {
        public void Report(double value) => tell(value);
    }
}

/// <summary>How far a report is.</summary>
/// <param name="Work">What is being done, in words; null while another report is bound first.</param>
/// <param name="Share">How much of it is done, in [0, 1].</param>
internal sealed record ReportProgress(string? Work, double Share);
