using System.Text.Json;

namespace StoreMap.Web.Storage;

/// <summary>A picture that lies under a store's plan while it is drawn. It stays on this device and is in no layout.</summary>
public sealed record Underlay
{
    /// <summary>Of the record; made of the store's.</summary>
    public required string Id { get; init; }

    /// <summary>The picture as a data address; null once it was taken away.</summary>
    public string? Picture { get; init; }

    /// <summary>Dots of the picture.</summary>
    public int Across { get; init; }

    /// <summary>Dots of the picture.</summary>
    public int Down { get; init; }

    /// <summary>Left edge, in the layout's unit.</summary>
    public double X { get; init; }

    /// <summary>Lower edge.</summary>
    public double Y { get; init; }

    /// <summary>On the plan.</summary>
    public double Width { get; init; }

    /// <summary>On the plan.</summary>
    public double Height { get; init; }

    /// <summary>The picture under a store's plan; null when there is none.</summary>
    public static async Task<Underlay?> Of(string store) =>
        JsonSerializer.Deserialize(await Browser.Get("meta", IdOf(store)), Json.Default.Underlay) is { Picture: not null } underlay ? underlay : null;

    /// <summary>A record's id for a store.</summary>
    public static string IdOf(string store) => "underlay-" + store;

    /// <summary>Keeps it on the disk.</summary>
    public Task Keep() => Browser.Put("meta", JsonSerializer.Serialize(this, Json.Default.Underlay));

    /// <summary>The dot at a place of the plan.</summary>
    public (double X, double Y) Dot(double x, double y) => ((x - X) / Width * Across, (Y + Height - y) / Height * Down);
}

/// <summary>A picture made ready to lie under a plan.</summary>
/// <param name="Wrong">What is wrong with the file; null when nothing is.</param>
/// <param name="Picture">As a data address.</param>
/// <param name="Across">Dots.</param>
/// <param name="Down">Dots.</param>
public sealed record PreparedUnderlay(string? Wrong, string? Picture, int Across, int Down);
