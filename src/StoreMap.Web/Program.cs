using Microsoft.Extensions.DependencyInjection;
using Microsoft.AspNetCore.Components.Web;
using Microsoft.AspNetCore.Components.WebAssembly.Hosting;
using StoreMap.Web;
using StoreMap.Web.Solving;
using StoreMap.Web.Storage;
using StoreMap.Web.Surveying;

var builder = WebAssemblyHostBuilder.CreateDefault(args);
builder.RootComponents.Add<App>("#app");
builder.RootComponents.Add<HeadOutlet>("head::after");
builder.Services
    .AddSingleton(TimeProvider.System).AddSingleton<LocalStore>().AddSingleton<Sync>().AddSingleton<LiveAnswer>().AddSingleton<EngineRoom>().AddSingleton<SurveySession>()
    .AddSingleton(_ =>
    {
        var http = new HttpClient { BaseAddress = new Uri(builder.HostEnvironment.BaseAddress), Timeout = TimeSpan.FromSeconds(30) };
        http.DefaultRequestHeaders.Add("X-StoreMap-Client", "1");
        return http;
    });
var app = builder.Build();
await Browser.Load();
var local = app.Services.GetRequiredService<LocalStore>();
await local.Open();
app.Services.GetRequiredService<HttpClient>().DefaultRequestHeaders.Add("X-StoreMap-Device", local.Device);
await app.RunAsync();
