using StoreMap.Data;
using StoreMap.Surveys;

namespace StoreMap.App.Serving;

/// <summary>Photos of a survey, and of a store's findings.</summary>
internal static class PhotosApi
{
    /// <summary>Largest photo; the client makes them smaller.</summary>
    public const int MostBytes = 2 << 20;

    public static void Map(RouteGroupBuilder api)
    {
        foreach (var (list, kind) in new[] { ("surveys", PhotoOwner.Survey), ("stores", PhotoOwner.Store) })
        {
            var path = $"/{list}/{{owner}}/photos/{{photo}}";
            api.MapPut(path, (string owner, string photo, HttpContext context, Photos photos) => Put(kind, owner, photo, context, photos))
                .WithSummary("Keeps a photo, a JPEG without metadata; sent again it changes nothing. Answered once it is on the disk.");
            api.MapGet(path, (string owner, string photo, Photos photos) => Get(kind, owner, photo, photos)).WithSummary("A photo.");
        }
    }

    private static async Task<IResult> Put(PhotoOwner kind, string owner, string photo, HttpContext context, Photos photos)
    {
        if (!JournalEvent.IsId(owner) || !JournalEvent.IsId(photo)) return Refuse(StatusCodes.Status400BadRequest, "An id is 1 to 64 of letters, digits, dot, dash and underscore.");
        if (context.Request.ContentType != "image/jpeg") return Refuse(StatusCodes.Status415UnsupportedMediaType, "A photo is sent as image/jpeg.");
        if (await Whole(context) is not { } image) return Refuse(StatusCodes.Status413PayloadTooLarge, "A photo has at most 2 MiB.");
        if (PlainJpeg.Fault(image) is { } fault) return Refuse(StatusCodes.Status400BadRequest, fault);
        return photos.Add(kind, owner, photo, image, SignInCookie.NameOf(context)) switch
        {
            PhotoKept.Kept => Results.NoContent(),
            PhotoKept.Different => Refuse(StatusCodes.Status409Conflict, "This photo is known with another picture. The first stays."),
            PhotoKept.TooMany => Refuse(StatusCodes.Status409Conflict, $"A visit holds at most {Photos.MostOfASurvey} photos, the findings of a store {Photos.MostOfAStore}."),
            _ => Refuse(StatusCodes.Status404NotFound, "The photo's visit or store is not here yet. Send its readings or its layout first."),
        };
    }

    private static IResult Get(PhotoOwner kind, string owner, string photo, Photos photos) =>
        photos.Find(kind, owner, photo) is { } image ? Results.File(image, "image/jpeg") : Results.NotFound(new ApiProblem("photo", "There is no such photo."));

    // Null as soon as it is more than a photo may be, whatever was said of its length.
    private static async Task<byte[]?> Whole(HttpContext context)
    {
        using var whole = new MemoryStream();
        var part = new byte[1 << 16];
        while (await context.Request.Body.ReadAsync(part, context.RequestAborted) is > 0 and var read)
        {
            if (whole.Length + read > MostBytes) return null;
            whole.Write(part, 0, read);
        }

        return whole.ToArray();
    }

    private static IResult Refuse(int status, string why) => Results.Json(new ApiProblem("photo", why), statusCode: status);
}
