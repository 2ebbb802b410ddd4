using System.Reflection;
using System.Security.Claims;
using Microsoft.AspNetCore.Authentication;
using StoreMap.Data;

namespace StoreMap.App.Serving;

/// <summary>Who am I, sign in, sign out.</summary>
internal static class SessionApi
{
    public static void Map(RouteGroupBuilder api)
    {
        api.MapGet("/session", Who).AllowAnonymous().WithSummary("Who is signed in, the server's clock and version.");
        api.MapPost("/session", In).AllowAnonymous().WithSummary("Signs in.");
        api.MapDelete("/session", (Delegate)Out).WithSummary("Signs out.");
    }

    private static SessionAnswer Who(HttpContext context, ServeOptions options, TimeProvider clock) => new(
        context.User.Identity?.Name, context.User.FindFirstValue(ClaimTypes.Role), options.SignIn, clock.GetUtcNow(),
        Assembly.GetExecutingAssembly().GetName().Version!.ToString(3));

    private static async Task<IResult> In(SignInRequest request, HttpContext context, People people, TimeProvider clock)
    {
        if (request.Name is not { Length: > 0 and <= 64 } || request.Passphrase is not { Length: > 0 and <= 1000 })
            return Results.BadRequest(new ApiProblem("sign-in", "Give a name and a passphrase."));
        var answer = people.Try(request.Name, request.Passphrase);
        if (answer.Person is { } person)
        {
            await SignInCookie.SignIn(context, person);
            return Results.Ok(new { name = person.Name, role = person.Role });
        }

        if (answer.LockedTill is { } till && till > clock.GetUtcNow())
        {
            context.Response.Headers.RetryAfter = ((int)Math.Ceiling((till - clock.GetUtcNow()).TotalSeconds)).ToString(System.Globalization.CultureInfo.InvariantCulture);
            return Results.Json(new ApiProblem("locked", "Too many wrong tries. Wait, then try again."), statusCode: StatusCodes.Status429TooManyRequests);
        }

        return Results.Json(new ApiProblem("sign-in", "Name and passphrase do not go together."), statusCode: StatusCodes.Status401Unauthorized);
    }

    private static async Task<IResult> Out(HttpContext context)
    {
        await context.SignOutAsync();
        return Results.NoContent();
    }
}

/// <summary>Who is signed in.</summary>
internal sealed record SessionAnswer(string? Name, string? Role, bool SignIn, DateTimeOffset Time, string Version);

/// <summary>A try to sign in.</summary>
internal sealed record SignInRequest(string? Name, string? Passphrase);
