// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;
using SensorSim.Signals.Randomness;

namespace SensorSim.Body.Movement;

/// <summary>Typing: small taps in bursts. Eight candidates a second; half of the four-second windows are bursts, three quarters of the candidates in them strokes.</summary>
/// <remarks>Candidates stand at keyed places whatever the size, so the knob only scales. Rates are choices of this project.</remarks>
internal sealed class Typing : Strikes
{
    private const double BurstSeconds = 4;
    private const double StrokeShare = 0.75;
    private readonly LiveSize _size;
    private readonly KeyedRandom _bursts;

    public Typing(KeyValues values, ulong seed)
        : base(new KeyedRandom(seed, "movement.typing"), perSecond: 8, tauSeconds: 0.006)
    {
        _size = new LiveSize(values.Course(HandMovementKeys.TypingG));
        _bursts = new KeyedRandom(seed, "movement.typing_burst");
    }

    public override bool IsOff => _size.IsOff;

    protected override bool MayAct(ReadOnlySpan<uint> words) => Uniform(words[1]) < StrokeShare;

    protected override Axes PeakG(double seconds, ReadOnlySpan<uint> words)
    {
        double size = _size.At(seconds);
        bool isStroke = size != 0 && MayAct(words) && _bursts.Uniform((long)Math.Floor(seconds / BurstSeconds)) < 0.5;
        return isStroke ? size * (0.5 + Uniform(words[2])) * new Axes(0.3, (0.8 * Uniform(words[3])) - 0.4, 1) : default;
    }
}
