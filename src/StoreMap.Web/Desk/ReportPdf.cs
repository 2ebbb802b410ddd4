using System.Net;
using System.Text;
using System.Text.Json;
using StoreMap.Web.Solving;
using StoreMap.Web.Storage;

namespace StoreMap.Web.Desk;

/// <summary>A report bound as a PDF by the server: how far it is, and a way to stop it.</summary>
/// <param name="http">The way to the server.</param>
/// <param name="changed">Told when there is news.</param>
internal sealed class ReportPdf(HttpClient http, Action changed)
{
    private static readonly TimeSpan AskAgain = TimeSpan.FromSeconds(0.7);

    private CancellationTokenSource? running;

    /// <summary>What is being done, in words; null when nothing is.</summary>
    public string? Work { get; private set; }

    /// <summary>How much of it is done, [0, 1]; null while that is not known.</summary>
    public double? Share { get; private set; }

    /// <summary>Has the report bound and hands it to the browser.</summary>
    /// <param name="store">The store's id.</param>
    /// <param name="request">What is wanted; it is given an id of its own.</param>
    /// <returns>What went wrong, for people, and what is said otherwise.</returns>
    public async Task<(string? Trouble, string? Said)> Take(string store, ReportRequest request)
    {
        using var stop = new CancellationTokenSource();
        running = stop;
        var job = Guid.NewGuid().ToString("N");
        Tell("Asking the server for the PDF", null);
        try
        {
            // It may take longer than anything else that is asked of the server.
            using var patient = new HttpClient { BaseAddress = http.BaseAddress, Timeout = Timeout.InfiniteTimeSpan };
            foreach (var (name, values) in http.DefaultRequestHeaders) patient.DefaultRequestHeaders.TryAddWithoutValidation(name, values);
            using var content = new StringContent(JsonSerializer.Serialize(request with { Job = job }, DeskJson.Plain.ReportRequest), Encoding.UTF8, "application/json");
            var binding = patient.PostAsync($"api/stores/{store}/report", content, stop.Token);
            while (await Task.WhenAny(binding, Task.Delay(AskAgain, stop.Token)) != binding) await Ask(store, job, stop.Token);
            using var answer = await binding;
            if (!answer.IsSuccessStatusCode)
                return (Why(answer.StatusCode), null);
            Tell("Fetching the PDF", null);
            Browser.Download($"{store}-report.pdf", "application/pdf", await answer.Content.ReadAsByteArrayAsync(stop.Token));
            return (null, "The PDF is with the browser's downloads.");
        }
        catch (OperationCanceledException) when (stop.IsCancellationRequested)
        {
            return (null, "Stopped. No PDF was made.");
        }
        catch (HttpRequestException)
        {
            return ("There is no network. Print instead, and choose PDF as the printer.", null);
        }
        finally
        {
            running = null;
            Tell(null, null);
        }
    }

    /// <summary>Stops it, here and on the server.</summary>
    public void Stop() => running?.Cancel();

    private static string Why(HttpStatusCode status) => status switch
    {
        HttpStatusCode.Unauthorized => "The server asks for a sign-in first; see This device.",
        HttpStatusCode.ServiceUnavailable => "The server has too many reports to bind already. Try again in a minute, or print.",
        _ => "The server could not make the PDF. Print instead.",
    };

    // How far it is is worth no trouble: the answer itself tells what is wrong.
    private async Task Ask(string store, string job, CancellationToken cancel)
    {
        try
        {
            using var answer = await http.GetAsync($"api/stores/{store}/report/{job}", cancel);
            if (answer.StatusCode != HttpStatusCode.OK || await Server.Read(answer, DeskJson.Plain.ReportProgress) is not { } progress) return;
            if (progress.Work is { } work) Tell($"The server: {work}", progress.Share);
            else Tell("The server binds another report first", null);
        }
        catch (Exception e) when (!cancel.IsCancellationRequested && e is HttpRequestException or TaskCanceledException)
        {
        }
    }

    private void Tell(string? work, double? share)
    {
        (Work, Share) = (work, share);
        changed();
    }
}
