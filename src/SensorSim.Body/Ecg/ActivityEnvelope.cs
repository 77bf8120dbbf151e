// SPDX-License-Identifier: MIT
using SensorSim.Signals.Courses;
using SensorSim.Signals.Numerics;

namespace SensorSim.Body.Ecg;

/// <summary>How strongly a rhythm's own waves are there: 1 inside the stretches with the rhythm's word, 0 outside, smooth at their edges.</summary>
/// <remarks>
/// Inside a stretch, and never outside of it, an edge takes 0.3 s: 10u³ − 15u⁴ + 6u⁵, smooth to the second derivative. With a decay
/// the whole falls as e^(−t/τ) from the begin of the stretch, or from time 0 if it begins before.
/// </remarks>
internal sealed class ActivityEnvelope
{
    /// <summary>Length of an edge [s].</summary>
    public const double EdgeSeconds = 0.3;

    private readonly double[] _from;
    private readonly double[] _to;
    private readonly double _decaySeconds;

    /// <summary>Takes the stretches of a word.</summary>
    /// <param name="rhythm">Course of the rhythm.</param>
    /// <param name="word">The word.</param>
    /// <param name="decaySeconds">Time constant of the decay τ [s]; infinity for none.</param>
    public ActivityEnvelope(ChoiceCourse rhythm, string word, double decaySeconds = double.PositiveInfinity)
    {
        _decaySeconds = decaySeconds;
        var from = new List<double>();
        var to = new List<double>();
        bool wasActive = false;
        for (int i = 0; i <= rhythm.Changes.Count; i++)
        {
            bool isActive = rhythm.Word(i) == word;
            double begin = i == 0 ? double.NegativeInfinity : rhythm.Changes[i - 1].AtSeconds;
            if (isActive && !wasActive)
            {
                from.Add(begin);
                to.Add(double.PositiveInfinity);
            }
            else if (wasActive && !isActive)
            {
                to[^1] = begin;
            }

            wasActive = isActive;
        }

        _from = [.. from];
        _to = [.. to];
    }

    /// <summary>Number of stretches.</summary>
    public int Count => _from.Length;

    /// <summary>Whether the inside of a stretch is 1 all through.</summary>
    public bool HasDecay => _decaySeconds < double.PositiveInfinity;

    /// <summary>Begin of a stretch [s].</summary>
    public double From(int stretch) => _from[stretch];

    /// <summary>End of a stretch [s].</summary>
    public double To(int stretch) => _to[stretch];

    /// <summary>Number of the first stretch that ends after a time [s]; <see cref="Count"/> when there is none.</summary>
    public int FirstEndingAfter(double seconds)
    {
        int low = 0;
        int high = _to.Length;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (_to[middle] > seconds)
            {
                high = middle;
            }
            else
            {
                low = middle + 1;
            }
        }

        return low;
    }

    /// <summary>Whether any stretch reaches into a span of time [s].</summary>
    public bool Touches(double fromSeconds, double toSeconds)
    {
        int stretch = FirstEndingAfter(fromSeconds);
        return stretch < Count && _from[stretch] < toSeconds;
    }

    /// <summary>The envelope at a time, with its first [1/s] and second derivative [1/s²].</summary>
    public double Value(double seconds, out double slope, out double curvature)
    {
        int stretch = FirstEndingAfter(seconds);
        slope = 0;
        curvature = 0;
        if (stretch == Count || _from[stretch] >= seconds)
        {
            return 0;
        }

        double rise = Edge(seconds - _from[stretch], out double riseSlope, out double riseCurvature);
        double fall = Edge(_to[stretch] - seconds, out double fallSlope, out double fallCurvature);
        double value = rise * fall;
        slope = (riseSlope * fall) - (rise * fallSlope);
        curvature = (riseCurvature * fall) - (2 * riseSlope * fallSlope) + (rise * fallCurvature);
        double lasted = seconds - Math.Max(0, _from[stretch]);
        if (HasDecay && lasted > 0)
        {
            double decay = PortableMath.Exp(-lasted / _decaySeconds);
            double rate = 1 / _decaySeconds;
            curvature = decay * (curvature - (2 * rate * slope) + (rate * rate * value));
            slope = decay * (slope - (rate * value));
            value *= decay;
        }

        return value;
    }

    private static double Edge(double seconds, out double slope, out double curvature)
    {
        slope = 0;
        curvature = 0;
        if (seconds >= EdgeSeconds)
        {
            return 1;
        }

        double u = seconds / EdgeSeconds;
        slope = 30 * u * u * (1 - u) * (1 - u) / EdgeSeconds;
        curvature = 60 * u * (1 - u) * (1 - (2 * u)) / (EdgeSeconds * EdgeSeconds);
        return u * u * u * (10 - (u * (15 - (6 * u))));
    }
}
