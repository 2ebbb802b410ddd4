using System.Security.Claims;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;
using StoreMap.Data;

namespace StoreMap.App.Serving;

/// <summary>Who someone is: by cookie, or the person at this very machine when nobody else can reach the server.</summary>
internal static class SignInCookie
{
    public const string Office = "office";
    public const string Field = "field";
    private const string Stamp = "stamp";

    public static void Add(IServiceCollection services, ServeOptions options)
    {
        services.AddAuthentication(CookieAuthenticationDefaults.AuthenticationScheme).AddCookie(cookie =>
        {
            cookie.Cookie.Name = "storemap";
            cookie.Cookie.HttpOnly = true;
            cookie.Cookie.SameSite = SameSiteMode.Strict;
            cookie.Cookie.SecurePolicy = options.SignIn ? CookieSecurePolicy.Always : CookieSecurePolicy.SameAsRequest;
            cookie.ExpireTimeSpan = TimeSpan.FromDays(30);
            cookie.SlidingExpiration = true;
            cookie.Events.OnRedirectToLogin = Answer(StatusCodes.Status401Unauthorized, "sign-in", "Sign in first. What is logged on this device is safe and is sent once you are signed in.");
            cookie.Events.OnRedirectToAccessDenied = Answer(StatusCodes.Status403Forbidden, "role", "Only someone with the role office may do this.");
            cookie.Events.OnValidatePrincipal = StillThat;
        });
        services.AddAuthorizationBuilder().AddPolicy(Office, p => p.RequireRole(Office));
    }

    public static void Use(WebApplication app, ServeOptions options)
    {
        app.UseAuthentication();
        if (!options.SignIn)
        {
            app.Use((context, next) =>
            {
                context.User = Principal(new Person("this machine", Office, ""));
                return next(context);
            });
        }

        app.UseAuthorization();
    }

    public static Task SignIn(HttpContext context, Person person) =>
        context.SignInAsync(CookieAuthenticationDefaults.AuthenticationScheme, Principal(person, DevicesApi.ClaimOf(context)), new AuthenticationProperties { IsPersistent = true });

    public static string NameOf(HttpContext context) => context.User.Identity?.Name ?? "nobody";

    private static ClaimsPrincipal Principal(Person person, params IEnumerable<Claim> more) => new(new ClaimsIdentity(
        [new Claim(ClaimTypes.Name, person.Name), new Claim(ClaimTypes.Role, person.Role), new Claim(Stamp, person.Stamp), .. more],
        CookieAuthenticationDefaults.AuthenticationScheme));

    // A person who was shut out, or whose passphrase or role changed, is out at the next contact.
    private static async Task StillThat(CookieValidatePrincipalContext context)
    {
        var person = context.HttpContext.RequestServices.GetRequiredService<People>().Find(context.Principal?.Identity?.Name ?? "");
        if (person is not null && person.Stamp == context.Principal!.FindFirstValue(Stamp)) return;
        context.RejectPrincipal();
        await context.HttpContext.SignOutAsync(CookieAuthenticationDefaults.AuthenticationScheme);
    }

    private static Func<RedirectContext<CookieAuthenticationOptions>, Task> Answer(int status, string rule, string message) => context =>
    {
        context.Response.StatusCode = status;
        return context.Response.WriteAsJsonAsync(new ApiProblem(rule, message));
    };
}
