// SPDX-License-Identifier: MIT
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Randomness;

namespace SensorSim.Body.Rhythm;

/// <summary>Sinus pauses: one in every stretch of the stated length, at a keyed place in its middle half.</summary>
internal sealed class Pauses
{
    private readonly Course _seconds;
    private readonly double _every;
    private readonly KeyedRandom _places;

    public Pauses(KeyValues values, ulong seed)
    {
        _seconds = values.Course(HeartKeys.PauseS);
        _every = values[HeartKeys.PauseEveryS];
        _places = new KeyedRandom(seed, "heart.pauses");
    }

    /// <summary>Length of the interval from a beat to the next: the pause when its place lies between the two, else what it was.</summary>
    /// <param name="seconds">The beat [s].</param>
    /// <param name="rrSeconds">Interval without a pause [s].</param>
    public double Lengthened(double seconds, double rrSeconds)
    {
        double pause = _seconds.Value(seconds);
        if (pause <= rrSeconds)
        {
            return rrSeconds;
        }

        long stretch = (long)Math.Floor(seconds / _every);
        double place = (stretch + 0.25 + (0.5 * _places.Uniform(stretch))) * _every;
        return place >= seconds && place < seconds + rrSeconds ? pause : rrSeconds;
    }
}
