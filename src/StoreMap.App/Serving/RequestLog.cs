using System.Diagnostics;
using Serilog;
using Serilog.Core;
using Serilog.Formatting.Compact;

namespace StoreMap.App.Serving;

/// <summary>One line of JSON for each request to the API: what kind it was, how it ended, how long it took.</summary>
/// <remarks>No name, place, reading or passphrase is ever written: of the address only the pattern, of a failure only its kind and where in
/// the program it arose. The framework's own logging, which adds addresses, has no part in it.</remarks>
internal sealed class RequestLog(RequestDelegate next, Logger log)
{
    /// <summary>A day's log goes on in another file from this size, bytes.</summary>
    private const long MostBytes = 10 << 20;

    /// <summary>Files kept; the oldest goes first.</summary>
    private const int MostFiles = 30;

    /// <summary>Log files in a folder, a new one each day.</summary>
    /// <param name="folder">Made when it is not there.</param>
    /// <param name="mostBytes">A file's size before the next is begun.</param>
    /// <param name="mostFiles">Files kept.</param>
    public static Logger Files(string folder, long mostBytes = MostBytes, int mostFiles = MostFiles) => new LoggerConfiguration().WriteTo.File(
        new CompactJsonFormatter(), Path.Combine(folder, "requests-.jsonl"), rollingInterval: RollingInterval.Day,
        fileSizeLimitBytes: mostBytes, rollOnFileSizeLimit: true, retainedFileCountLimit: mostFiles).CreateLogger();

    public async Task InvokeAsync(HttpContext context)
    {
        if (!context.Request.Path.StartsWithSegments("/api", StringComparison.Ordinal))
        {
            await next(context);
            return;
        }

        var begun = Stopwatch.GetTimestamp();
        try
        {
            await next(context);
            Write(log, context.Request.Method, Pattern(context), context.Response.StatusCode, Milliseconds(begun));
        }
        catch (OperationCanceledException) when (context.RequestAborted.IsCancellationRequested)
        {
            // The client stopped it or went away: nothing failed here.
            Write(log, context.Request.Method, Pattern(context), StatusCodes.Status499ClientClosedRequest, Milliseconds(begun));
            throw;
        }
        catch (Exception failure)
        {
            log.Error("{Method} {Pattern} failed with {Failure} after {Milliseconds} ms at {Trace}", context.Request.Method, Pattern(context), failure.GetType().Name, Milliseconds(begun), failure.StackTrace);
            throw;
        }
    }

    /// <summary>Writes the line of a request that was answered.</summary>
    public static void Write(Logger log, string method, string pattern, int status, double milliseconds) =>
        log.Information("{Method} {Pattern} {Status} in {Milliseconds} ms", method, pattern, status, milliseconds);

    private static double Milliseconds(long begun) => Math.Round(Stopwatch.GetElapsedTime(begun).TotalMilliseconds, 1);

    private static string Pattern(HttpContext context) =>
        (context.GetEndpoint() as Microsoft.AspNetCore.Routing.RouteEndpoint)?.RoutePattern.RawText ?? "none";
}
