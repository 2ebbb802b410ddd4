using System.Net;
using StoreMap.App.Serving;

namespace StoreMap.Tests.Serving;

public class ReportJobsTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public void Job_OfOneStore_IsNoneOfAnothersOfTheSameId()
    {
        using var jobs = new ReportJobs();
        jobs.Tell("tern-hollow", "a", new ReportProgress("Mapping", 0.5));
        jobs.Tell("alder-corner", "a", new ReportProgress("Binding", 0.9));
        Assert.Equal("Mapping", jobs.Of("tern-hollow", "a")?.Work);
        jobs.Tell("tern-hollow", "a", null);
        Assert.Null(jobs.Of("tern-hollow", "a"));
        Assert.Equal("Binding", jobs.Of("alder-corner", "a")?.Work);
    }

    [Fact]
    public async Task Line_ThatIsFull_TakesNoMoreUntilOneIsBoundOrStopped()
    {
        using var jobs = new ReportJobs();
        using var hold = new ManualResetEventSlim();
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(Cancel);
        string Held()
        {
            hold.Wait(Cancel);
            return "bound";
        }

        List<Task<string?>> taken = [.. Enumerable.Range(0, ReportJobs.MostWaiting).Select(_ => jobs.InTurn(Held, Cancel)), jobs.InTurn(Held, stop.Token)];
        Assert.Null(await jobs.InTurn(Held, Cancel));
        Assert.Null(await jobs.InTurn(Held, Cancel));
        await stop.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => taken[^1]);
        taken[^1] = jobs.InTurn(Held, Cancel);
        hold.Set();
        Assert.All(await Task.WhenAll(taken), b => Assert.Equal("bound", b));
        Assert.Equal("bound", await jobs.InTurn(Held, Cancel));
    }

    [Fact]
    public async Task Report_AskedForWhileTheLineIsFull_IsRefusedInPlainWords()
    {
        await using var server = await TestServer.WithSurvey();
        var answers = await Task.WhenAll(Enumerable.Range(0, 3 * ReportJobs.MostWaiting).Select(_ =>
            server.Client.PostAsync("/api/stores/tern-hollow/report", TestServer.Json("""{"surveys":["s1"],"parts":["Manager"]}"""), Cancel)));
        var refused = answers.Where(a => a.StatusCode == HttpStatusCode.ServiceUnavailable).ToList();
        Assert.True(answers.Count(a => a.StatusCode == HttpStatusCode.OK) > ReportJobs.MostWaiting);
        Assert.NotEmpty(refused);
        Assert.Contains("Too many reports wait", await refused[0].Content.ReadAsStringAsync(Cancel), StringComparison.Ordinal);
    }
}
