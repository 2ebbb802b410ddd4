namespace StoreMap.App.Serving;

/// <summary>Refuses what our own pages never send: a change asked for by another site's page, and a proxy that the server was not told of.</summary>
/// <remarks>A change must carry a header of ours, which no page of another origin can add without a leave that is never given, and where
/// the browser tells origin and site they must be this one. With the cookie's SameSite=Strict that is two locks on one door.</remarks>
internal sealed class RequestGuard(RequestDelegate next, ServeOptions options)
{
    /// <summary>The header of our own client on every change.</summary>
    public const string ClientHeader = "X-StoreMap-Client";

    public Task InvokeAsync(HttpContext context)
    {
        var request = context.Request;
        if (options.ProxyHost is null && !options.SignIn && request.Headers.Keys.Any(k => k.StartsWith("X-Forwarded-", StringComparison.OrdinalIgnoreCase) || k.Equals("Forwarded", StringComparison.OrdinalIgnoreCase)))
            return Refuse(context, "A proxy stands before this server, so others may reach it. Start it with --proxy HOST, which asks for a sign-in.");
        var changes = !(HttpMethods.IsGet(request.Method) || HttpMethods.IsHead(request.Method) || HttpMethods.IsOptions(request.Method));
        return changes && Forged(request) ? Refuse(context, "This change did not come from a page of this server.") : next(context);
    }

    private static bool Forged(HttpRequest request)
    {
        if (request.Headers[ClientHeader].Count != 1) return true;
        if (request.Headers["Sec-Fetch-Site"] is { Count: > 0 } site && site != "same-origin") return true;
        return request.Headers.Origin is { Count: > 0 } origin
            && !(Uri.TryCreate(origin, UriKind.Absolute, out var from) && from.Authority.Equals(request.Host.Value, StringComparison.OrdinalIgnoreCase));
    }

    private static Task Refuse(HttpContext context, string why)
    {
        context.Response.StatusCode = StatusCodes.Status403Forbidden;
        return context.Response.WriteAsJsonAsync(new ApiProblem("refused", why));
    }
}

/// <summary>What went wrong, for a person.</summary>
/// <param name="Rule">Short stable name.</param>
/// <param name="Message">What is wrong and what to do.</param>
internal sealed record ApiProblem(string Rule, string Message);
