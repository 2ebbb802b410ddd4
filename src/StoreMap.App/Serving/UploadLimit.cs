using Microsoft.AspNetCore.Http.Features;

namespace StoreMap.App.Serving;

/// <summary>Answers what is larger than a request may be, in words and with status 413, whether its length was told or only shows.</summary>
internal sealed class UploadLimit(RequestDelegate next)
{
    private static readonly ApiProblem TooLarge = new(
        "too-large",
        $"What was sent is larger than the {WebServer.MostBytes >> 20} MiB that this server takes at once; nothing of it was kept. A layout of that size is not one store's: choose the right file, or take out what is not part of the store. Entries go in smaller batches, a photo smaller.");

    public async Task InvokeAsync(HttpContext context)
    {
        if (context.Request.ContentLength > WebServer.MostBytes)
        {
            // The rest is read past for a few seconds, so that who is still sending gets to read the answer.
            if (context.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } limit) limit.MaxRequestBodySize = null;
            await Refuse(context);
            return;
        }

        try
        {
            await next(context);
        }
        catch (BadHttpRequestException e) when (e.StatusCode == StatusCodes.Status413PayloadTooLarge && !context.Response.HasStarted)
        {
            await Refuse(context);
            return;
        }

        // Found out while a body was read for an endpoint, which sets the status alone.
        if (context.Response is { StatusCode: StatusCodes.Status413PayloadTooLarge, HasStarted: false, ContentType: null }) await Refuse(context);
    }

    private static Task Refuse(HttpContext context)
    {
        context.Response.StatusCode = StatusCodes.Status413PayloadTooLarge;
        return context.Response.WriteAsJsonAsync(TooLarge);
    }
}
