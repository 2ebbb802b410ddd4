using StoreMap.Plans;

namespace StoreMap.Zones;

/// <summary>A fitted curve along a front.</summary>
/// <param name="Air">State of the air that it is of; with fans off it holds <see cref="StillAir.UnitSeconds"/> after the stop.</param>
/// <param name="Base">True for what a probe at the kick plate shows, false for one in the air of the case.</param>
/// <param name="Points">Points from the front's start to its end, at equal steps.</param>
public sealed record FrontProfile(AirState Air, bool Base, IReadOnlyList<ProfilePoint> Points);

/// <summary>The fitted net ppm at a place along the front, with a 90 % band for a reading there.</summary>
/// <param name="Along">Metres along the front.</param>
/// <param name="Ppm">Median net ppm.</param>
/// <param name="LowPpm">5 % point.</param>
/// <param name="HighPpm">95 % point.</param>
/// <param name="Density">Probability density of the leak's place, per metre.</param>
public sealed record ProfilePoint(double Along, double Ppm, double LowPpm, double HighPpm, double Density);
