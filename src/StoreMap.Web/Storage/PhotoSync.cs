using System.Text.Json;

namespace StoreMap.Web.Storage;

/// <summary>Sends the photos of a visit or a store that the server has not confirmed.</summary>
internal static class PhotoSync
{
    /// <summary>Sends them one after another, until the server can't be reached or asks for a sign-in. A photo that it won't have stays on this device and is not
    /// tried again.</summary>
    /// <param name="store">What this device keeps.</param>
    /// <param name="journal">The visit's or the store's id.</param>
    /// <param name="place">Where they go on the server: "surveys/id" or "stores/id".</param>
    /// <returns>True when the server asks for a sign-in, and what a person must look at.</returns>
    public static async Task<(bool SignIn, string? Trouble)> Send(LocalStore store, string journal, string place)
    {
        string? trouble = null;
        foreach (var photo in JsonSerializer.Deserialize(await Browser.UnsentPhotos(journal), Json.Default.StringArray)!)
        {
            switch (await Browser.SendPhoto(photo, place, store.Device))
            {
                case 204:
                    await Browser.PhotoDone(photo, false);
                    break;
                case 400 or 409 or 413 or 415:
                    await Browser.PhotoDone(photo, true);
                    trouble = "The server did not take a photo. It stays on this device and in the visit's backup file.";
                    break;
                case 401:
                    return (true, trouble);
                default:
                    // Not reached, or the visit or store is not there yet: with the next round.
                    return (false, trouble);
            }
        }

        return (false, trouble);
    }
}
