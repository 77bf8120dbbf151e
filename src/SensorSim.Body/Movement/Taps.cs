// SPDX-License-Identifier: MIT
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Randomness;

namespace SensorSim.Body.Movement;

/// <summary>Taps on the sensor: thinned from four candidates a second so that their rate moves none of them.</summary>
internal sealed class Taps : Strikes
{
    private const double PerSecond = 4;
    private readonly LiveSize _size;
    private readonly Course _perMin;

    public Taps(KeyValues values, ulong seed)
        : base(new KeyedRandom(seed, "movement.tap"), PerSecond, tauSeconds: 0.008)
    {
        _size = new LiveSize(values.Course(HandMovementKeys.TapG));
        _perMin = values.Course(HandMovementKeys.TapsPerMin);
    }

    public override bool IsOff => _size.IsOff || (_perMin.IsConstant && _perMin.BaseValue == 0);

    // While the rate stays the same it decides alone.
    protected override bool MayAct(ReadOnlySpan<uint> words) => !_perMin.IsConstant || Uniform(words[1]) * 60 * PerSecond < _perMin.BaseValue;

    // From above, up to a half more or less, a little from the side: the halves of one word say how much to each.
    protected override Axes PeakG(double seconds, ReadOnlySpan<uint> words)
    {
        static double Half(uint half) => (half + 0.5) * (1.0 / 65536.0);
        bool isTap = Uniform(words[1]) * 60 * PerSecond < _perMin.Value(seconds);
        return isTap
            ? _size.At(seconds) * (0.5 + Uniform(words[2]))
                * new Axes((0.6 * Half(words[3] & 0xFFFF)) - 0.3, (0.6 * Half(words[3] >> 16)) - 0.3, -1)
            : default;
    }
}
