// SPDX-License-Identifier: MIT
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Randomness;

namespace SensorSim.Body.Movement;

/// <summary>Taps on the sensor: damped transients, thinned from four candidates a second so that their rate moves none of them.</summary>
internal sealed class Taps(KeyValues values, ulong seed)
{
    private const double PerSecond = 4;
    private const double TauSeconds = 0.008;
    private const int Draws = 8;
    private readonly LiveSize _size = new(values.Course(HandMovementKeys.TapG));
    private readonly Course _perMin = values.Course(HandMovementKeys.TapsPerMin);
    private readonly KeyedRandom _random = new(seed, "movement.tap");

    /// <summary>Whether there is never anything of it.</summary>
    public bool IsOff => _size.IsOff || (_perMin.IsConstant && _perMin.BaseValue == 0);

    /// <summary>Acceleration at a time [g].</summary>
    public Axes At(double seconds)
    {
        Axes sum = default;
        for (long k = First(seconds); k <= Last(seconds); k++)
        {
            double at = Place(k);
            sum += Transient.At((seconds - at) / TauSeconds) * PeakG(k, at);
        }

        return sum;
    }

    /// <summary>Adds the acceleration to a block.</summary>
    public void Add(MovementBlock block)
    {
        if (IsOff)
        {
            return;
        }

        for (long k = First(block.BeginSeconds); k <= Last(block.EndSeconds); k++)
        {
            double at = Place(k);
            Axes peak = PeakG(k, at);
            if (peak != default)
            {
                Transient.Add(block, at, TauSeconds, peak);
            }
        }
    }

    private static long First(double seconds) => (long)Math.Floor((seconds - (Transient.EndX * TauSeconds)) * PerSecond);

    private static long Last(double seconds) => (long)Math.Floor(seconds * PerSecond);

    private double Place(long k) => (k + _random.Uniform(Draws * k)) / PerSecond;

    // From above, up to a half more or less, a little from the side.
    private Axes PeakG(long k, double seconds)
    {
        bool isTap = _random.Uniform((Draws * k) + 1) * 60 * PerSecond < _perMin.Value(seconds);
        return isTap
            ? _size.At(seconds) * (0.5 + _random.Uniform((Draws * k) + 2))
                * new Axes((0.6 * _random.Uniform((Draws * k) + 3)) - 0.3, (0.6 * _random.Uniform((Draws * k) + 4)) - 0.3, -1)
            : default;
    }
}
