// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Candidates;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Optics;

/// <summary>Hands and people that pass before the light: shadows along a bell (1 − u²)², 0.3 to 1.5 s long.</summary>
/// <remarks>
/// Thinned from one candidate in every two seconds at keyed places, so that the rate moves no shadow. Any time may be asked for; which
/// candidates are kept is only remembered.
/// </remarks>
internal sealed class AmbientHands(KeyedRandom random, double perMin)
{
    private const double EverySeconds = 2;
    private const double ShortestHalfSeconds = 0.15;
    private const double LongestHalfSeconds = 0.75;
    private const int Remembered = 4;
    private readonly EvenCandidates _candidates = new(random, EverySeconds);
    private readonly double _perSecond = perMin / 60;
    private readonly Shadow[] _shadows = new Shadow[Remembered];

    /// <summary>One that may be used by another thread.</summary>
    public AmbientHands Copy() => new(random, perMin);

    /// <summary>Multiplies gains at samples of a grid by what the shadows leave.</summary>
    /// <param name="gains">Element i is that of sample <paramref name="firstIndex"/> + i.</param>
    /// <param name="grid">Sampling instants.</param>
    /// <param name="firstIndex">Index of the first sample.</param>
    /// <param name="depth">Share that a shadow takes at its middle, 0 to 1.</param>
    /// <returns>Whether any shadow lies there; if not, the gains are untouched.</returns>
    public bool Shade(Span<double> gains, in SampleGrid grid, long firstIndex, double depth)
    {
        bool isAny = false;
        double begin = grid.Seconds(firstIndex);
        double end = grid.Seconds(firstIndex + gains.Length - 1);
        for (long k = _candidates.At(begin - LongestHalfSeconds); k <= _candidates.At(end + LongestHalfSeconds); k++)
        {
            ref readonly Shadow shadow = ref Find(k);
            if (!shadow.IsKept)
            {
                continue;
            }

            double middle = shadow.MiddleSeconds;
            double half = shadow.HalfSeconds;
            int from = (int)Math.Max(0, grid.FirstAtOrAfter(middle - half) - firstIndex);
            int to = (int)Math.Min(gains.Length, grid.FirstAtOrAfter(middle + half) - firstIndex);
            for (int i = from; i < to; i++)
            {
                double u = (grid.Seconds(firstIndex + i) - middle) / half;
                double rest = 1 - (u * u);
                gains[i] *= 1 - (depth * (rest * rest));
                isAny = true;
            }
        }

        return isAny;
    }

    private ref readonly Shadow Find(long k)
    {
        ref Shadow shadow = ref _shadows[k & (Remembered - 1)];
        if (!shadow.IsKnown || shadow.Candidate != k)
        {
            double half = ShortestHalfSeconds + ((LongestHalfSeconds - ShortestHalfSeconds) * _candidates.Uniform(k, 0));
            shadow = new Shadow(true, k, _candidates.IsEvent(k, _perSecond), _candidates.Seconds(k), half);
        }

        return ref shadow;
    }

    private readonly record struct Shadow(bool IsKnown, long Candidate, bool IsKept, double MiddleSeconds, double HalfSeconds);
}
