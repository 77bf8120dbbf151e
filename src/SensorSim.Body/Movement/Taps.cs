// SPDX-License-Identifier: MIT
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Randomness;

namespace SensorSim.Body.Movement;

/// <summary>Taps on the sensor: thinned from four candidates a second so that their rate moves none of them.</summary>
internal sealed class Taps : Strikes
{
    private const double PerSecond = 4;
    private const int Draws = 8;
    private readonly LiveSize _size;
    private readonly Course _perMin;
    private readonly KeyedRandom _random;

    public Taps(KeyValues values, ulong seed)
        : this(values, new KeyedRandom(seed, "movement.tap"))
    {
    }

    private Taps(KeyValues values, KeyedRandom random)
        : base(random, Draws, PerSecond, tauSeconds: 0.008)
    {
        _size = new LiveSize(values.Course(HandMovementKeys.TapG));
        _perMin = values.Course(HandMovementKeys.TapsPerMin);
        _random = random;
    }

    public override bool IsOff => _size.IsOff || (_perMin.IsConstant && _perMin.BaseValue == 0);

    // From above, up to a half more or less, a little from the side.
    protected override Axes PeakG(long k, double seconds, ReadOnlySpan<uint> words)
    {
        bool isTap = Uniform(words[1]) * 60 * PerSecond < _perMin.Value(seconds);
        return isTap
            ? _size.At(seconds) * (0.5 + Uniform(words[2]))
                * new Axes((0.6 * Uniform(words[3])) - 0.3, (0.6 * _random.Uniform((Draws * k) + 4)) - 0.3, -1)
            : default;
    }
}
