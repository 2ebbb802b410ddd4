using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;

namespace StoreMap.Web.Storage;

/// <summary>What is asked of the server, and its answers.</summary>
internal sealed class Server(HttpClient http)
{
    /// <summary>A store's layout; null when it can't be had.</summary>
    /// <param name="id">The store's id.</param>
    /// <param name="at">Its version; null for the latest.</param>
    public async Task<(int Version, string Document)?> Layout(string id, int? at = null)
    {
        using var answer = await http.GetAsync(FormattableString.Invariant($"api/stores/{id}/layout{(at is null ? "" : $"?version={at}")}"));
        if (!answer.IsSuccessStatusCode || answer.Headers.ETag is not { } tag) return null;
        return (int.Parse(tag.Tag.Trim('"'), CultureInfo.InvariantCulture), await answer.Content.ReadAsStringAsync());
    }

    /// <summary>What lies at a path; nothing when it is not given.</summary>
    public async Task<T?> Get<T>(string path, JsonTypeInfo<T> type)
    {
        using var answer = await http.GetAsync(path);
        return answer.IsSuccessStatusCode ? await Read(answer, type) : default;
    }

    /// <summary>Sends JSON.</summary>
    /// <param name="method">The method.</param>
    /// <param name="path">Where to.</param>
    /// <param name="json">The text.</param>
    /// <param name="madeFrom">The version that it was made from; 0 for none.</param>
    public async Task<HttpResponseMessage> Send(HttpMethod method, string path, string json, int madeFrom = 0)
    {
        using var request = new HttpRequestMessage(method, path) { Content = new StringContent(json, Encoding.UTF8, "application/json") };
        if (madeFrom > 0) request.Headers.TryAddWithoutValidation("If-Match", $"\"{madeFrom.ToString(CultureInfo.InvariantCulture)}\"");
        return await http.SendAsync(request);
    }

    /// <summary>An answer's JSON; nothing when it is none.</summary>
    public static async Task<T?> Read<T>(HttpResponseMessage answer, JsonTypeInfo<T> type)
    {
        try
        {
            return JsonSerializer.Deserialize(await answer.Content.ReadAsStringAsync(), type);
        }
        catch (JsonException)
        {
            return default;
        }
    }
}
