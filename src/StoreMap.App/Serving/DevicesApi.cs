using System.Security.Claims;
using Microsoft.AspNetCore.Authentication;
using StoreMap.Data;
using StoreMap.Surveys;

namespace StoreMap.App.Serving;

/// <summary>Devices and their loss. A lost one is refused whatever it asks for, and our client wipes itself at that answer; a sign-in made
/// on it is refused too, so that it does not get further without our client.</summary>
internal static class DevicesApi
{
    /// <summary>The header in which our client names its device.</summary>
    private const string Header = "X-StoreMap-Device";

    private const string DeviceClaim = "device";

    /// <summary>Puts the guard behind the sign-in.</summary>
    public static void Use(WebApplication app) => app.Use(async (context, next) =>
    {
        var devices = context.RequestServices.GetRequiredService<Devices>();
        string[] ids = [.. new[] { Named(context), context.User.FindFirstValue(DeviceClaim) }.OfType<string>()];
        if (ids.Any(devices.IsLost))
        {
            await context.SignOutAsync();
            context.Response.StatusCode = StatusCodes.Status410Gone;
            await context.Response.WriteAsJsonAsync(new ApiProblem("lost", "This device was reported lost. What it keeps is to be wiped."));
            return;
        }

        if (Named(context) is { } id && context.User.Identity?.Name is { } person) devices.See(id, person);
        await next(context);
    });

    public static void Map(RouteGroupBuilder api)
    {
        var devices = api.MapGroup("/devices").RequireAuthorization(SignInCookie.Office);
        devices.MapGet("", (Devices all) => all.All()).WithSummary("Devices that were in contact.");
        devices.MapPut("/{device}/lost", (string device, Devices all) => all.SetLost(device, true) ? Results.NoContent() : Results.NotFound()).WithSummary("Shuts a device out; it wipes itself at its next contact.");
        devices.MapDelete("/{device}/lost", (string device, Devices all) => all.SetLost(device, false) ? Results.NoContent() : Results.NotFound()).WithSummary("Lets a device in again that is not lost after all.");
    }

    /// <summary>Binds a sign-in to the device that it is made on.</summary>
    public static IEnumerable<Claim> ClaimOf(HttpContext context) => Named(context) is { } id ? [new Claim(DeviceClaim, id)] : [];

    private static string? Named(HttpContext context) => context.Request.Headers[Header] is [{ } id] && JournalEvent.IsId(id) ? id : null;
}
