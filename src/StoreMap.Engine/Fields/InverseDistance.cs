using StoreMap.Plans;

namespace StoreMap.Fields;

/// <summary>Inverse distance weighting: the mean of the sample points weighted by distance to a negative power. Has no
/// deviation of its own; score it by <see cref="CrossValidation"/>. Source: Shepard 1968.</summary>
public static class InverseDistance
{
    /// <summary>Estimates the value at a place.</summary>
    /// <param name="samples">At least one.</param>
    /// <param name="at">The place, metres.</param>
    /// <param name="power">Power of the distance, greater than 0.</param>
    /// <param name="nearest">Use only so many nearest sample points, at least 1; null for all.</param>
    /// <returns>The weighted mean. At a sample point its value; where several lie at one place, their mean.</returns>
    /// <exception cref="ArgumentException">There is no sample point, or one is not finite.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The power or the number of neighbours is out of range.</exception>
    public static double Estimate(IReadOnlyList<SamplePoint> samples, PlanPoint at, double power = 2, int? nearest = null)
    {
        SamplePoint.Check(samples);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(power);
        ArgumentOutOfRangeException.ThrowIfLessThan(nearest ?? 1, 1, nameof(nearest));
        var used = nearest < samples.Count ? SamplePoint.Nearest(samples, at, nearest.Value) : null;
        double sum = 0, weights = 0, here = 0;
        var coincident = 0;
        for (var k = 0; k < (used?.Length ?? samples.Count); k++)
        {
            var sample = samples[used?[k] ?? k];
            var distance = sample.At.DistanceTo(at);
            if (distance == 0)
            {
                coincident++;
                here += sample.Value;
                continue;
            }

            var weight = power == 2 ? 1 / (distance * distance) : Math.Pow(distance, -power);
            sum += weight * sample.Value;
            weights += weight;
        }

        return coincident > 0 ? here / coincident : sum / weights;
    }
}
