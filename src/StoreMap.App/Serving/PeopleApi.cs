using StoreMap.Data;

namespace StoreMap.App.Serving;

/// <summary>Who may sign in; for the office alone.</summary>
internal static class PeopleApi
{
    public static void Map(RouteGroupBuilder api)
    {
        var people = api.MapGroup("/people").RequireAuthorization(SignInCookie.Office);
        people.MapGet("", (People all) => all.All().Select(p => new { name = p.Name, role = p.Role })).WithSummary("Names and roles.");
        people.MapPut("/{name}", Put).WithSummary("Adds a person, or gives a new passphrase and role.");
        people.MapDelete("/{name}", (string name, People all) => all.Remove(name) ? Results.NoContent() : Results.NotFound()).WithSummary("Shuts a person out, also on devices that are signed in.");
    }

    private static IResult Put(string name, NewPerson person, People all)
    {
        if (!People.IsName(name)) return Bad("A name has 1 to 64 characters.");
        if (person.Role is not (SignInCookie.Office or SignInCookie.Field)) return Bad("The role is office or field.");
        if (person.Passphrase is not { Length: >= People.FewestCharacters and <= 1000 }) return Bad($"A passphrase has at least {People.FewestCharacters} characters; a few words do well.");
        all.Set(name, person.Role, person.Passphrase);
        return Results.NoContent();
    }

    private static IResult Bad(string message) => Results.BadRequest(new ApiProblem("person", message));
}

/// <summary>A person to be added.</summary>
internal sealed record NewPerson(string? Role, string? Passphrase);
