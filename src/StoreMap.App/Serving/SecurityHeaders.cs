namespace StoreMap.App.Serving;

/// <summary>What a browser may do with what it gets: nothing from elsewhere, no script but ours, no frame around it.</summary>
internal sealed class SecurityHeaders(RequestDelegate next, ServeOptions options)
{
    /// <summary>The engine is WebAssembly, so it may be compiled; text never becomes script.</summary>
    public const string Policy =
        "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' blob: data:; font-src 'self'; " +
        "connect-src 'self'; manifest-src 'self'; worker-src 'self'; base-uri 'self'; form-action 'none'; frame-ancestors 'none'";

    public Task InvokeAsync(HttpContext context)
    {
        var headers = context.Response.Headers;
        headers.ContentSecurityPolicy = Policy;
        headers.XContentTypeOptions = "nosniff";
        headers["Referrer-Policy"] = "no-referrer";
        headers["Cross-Origin-Opener-Policy"] = "same-origin";
        headers["Cross-Origin-Resource-Policy"] = "same-origin";
        headers["Permissions-Policy"] = "camera=(self), microphone=(), geolocation=(), payment=()";
        if (options.Certificate is not null || options.ProxyHost is not null) headers.StrictTransportSecurity = "max-age=31536000";
        if (context.Request.Path.StartsWithSegments("/api", StringComparison.OrdinalIgnoreCase)) headers.CacheControl = "no-store";
        return next(context);
    }
}
