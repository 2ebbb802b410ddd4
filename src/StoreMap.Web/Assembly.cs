using System.Runtime.Versioning;

// The whole client runs in a browser and nowhere else.
[assembly: SupportedOSPlatform("browser")]
