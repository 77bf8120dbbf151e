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

    // Nobody asks again for what lies further back.
    private const int Remembered = 8;
    private readonly EvenCandidates _candidates = new(random, EverySeconds);
    private readonly double _perSecond = perMin / 60;
    private readonly Shadow[] _shadows = new Shadow[Remembered];

    /// <summary>One that may be used by another thread.</summary>
    public AmbientHands Copy() => new(random, perMin);

    /// <summary>Whether any shadow lies over a stretch of time.</summary>
    /// <param name="beginSeconds">Body time [s].</param>
    /// <param name="endSeconds">Body time [s].</param>
    public bool Touch(double beginSeconds, double endSeconds)
    {
        bool isAny = false;
        long last = _candidates.At(endSeconds + LongestHalfSeconds);
        for (long k = _candidates.At(beginSeconds - LongestHalfSeconds); k <= last; k++)
        {
            ref readonly Shadow shadow = ref Find(k);
            isAny |= shadow.IsKept && shadow.MiddleSeconds - shadow.HalfSeconds <= endSeconds && shadow.MiddleSeconds + shadow.HalfSeconds >= beginSeconds;
        }

        return isAny;
    }

    /// <summary>Multiplies gains at samples of a grid by what the shadows leave.</summary>
    /// <param name="gains">Element i is that of sample <paramref name="firstIndex"/> + i.</param>
    /// <param name="grid">Sampling instants.</param>
    /// <param name="firstIndex">Index of the first sample.</param>
    /// <param name="depth">Share that a shadow takes at its middle, 0 to 1.</param>
    public void Shade(Span<double> gains, in SampleGrid grid, long firstIndex, double depth)
    {
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
            }
        }
    }

    private ref readonly Shadow Find(long k)
    {
        ref Shadow shadow = ref _shadows[k & (Remembered - 1)];
        if (!shadow.IsKnown || shadow.Candidate != k)
        {
            shadow = new Shadow(true, k, false, 0, 0);
            if (_candidates.IsEvent(k, _perSecond))
            {
                double half = ShortestHalfSeconds + ((LongestHalfSeconds - ShortestHalfSeconds) * _candidates.Uniform(k, 0));
                shadow = new Shadow(true, k, true, _candidates.Seconds(k), half);
            }
        }

        return ref shadow;
    }

    private readonly record struct Shadow(bool IsKnown, long Candidate, bool IsKept, double MiddleSeconds, double HalfSeconds);
}
