using Microsoft.Extensions.DependencyInjection;
using Microsoft.AspNetCore.Components.WebAssembly.Hosting;
using StoreMap.Web;
using StoreMap.Web.Solving;
using StoreMap.Web.Storage;
using StoreMap.Web.Surveying;

var builder = WebAssemblyHostBuilder.CreateDefault(args);
builder.RootComponents.Add<App>("#app");
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
await app.Services.GetRequiredService<LocalStore>().Open();
app.Services.GetRequiredService<Sync>().Start();
await app.RunAsync();
