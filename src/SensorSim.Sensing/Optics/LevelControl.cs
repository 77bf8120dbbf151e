// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Optics;

/// <summary>The sensor's own control of one LED: from the mean code of 64 samples to the current of the next.</summary>
/// <remarks>
/// Outside of the band the current is multiplied so that the mean code would lie in the band's middle, by a half to two, and rounded to
/// 0.1 mA. The 64 samples after a step are not judged: in them the light may still settle. It sees codes alone, so the same codes give the
/// same steps whatever the cuts.
/// </remarks>
internal sealed class LevelControl
{
    private const double LargestStep = 2;
    private const double StepsPerMa = 10;
    private const double LeastMa = 0.1;

    private readonly double _lowCode;
    private readonly double _highCode;
    private readonly double _mostMa;
    private readonly int _zeroCode;
    private long _sum;
    private int _count;
    private bool _isWaiting;

    /// <summary>Creates the control of a slot.</summary>
    public LevelControl(KeyValues values, ChannelFormat format)
    {
        double codes = 1 << format.Bits;
        _lowCode = values[LevelControlKeys.LowPercent] * 0.01 * codes;
        _highCode = values[LevelControlKeys.HighPercent] * 0.01 * codes;
        _mostMa = values[LevelControlKeys.MostMa];
        _zeroCode = format.ZeroCode;
    }

    /// <summary>Whether a scenario has it.</summary>
    public static bool IsOn(KeyValues values) => values[LevelControlKeys.LevelControl] == "on";

    /// <summary>Takes in codes.</summary>
    public void See(ReadOnlySpan<int> codes)
    {
        // Whole numbers: any order gives the same sum. 64-bit lanes hold that of any number of codes.
        int i = 0;
        Vector256<long> sums = Vector256<long>.Zero;
        for (; i + Vector256<int>.Count <= codes.Length; i += Vector256<int>.Count)
        {
            (Vector256<long> low, Vector256<long> high) = Vector256.Widen(Vector256.Create(codes[i..]));
            sums += low + high;
        }

        _sum += sums.GetElement(0) + sums.GetElement(1) + sums.GetElement(2) + sums.GetElement(3);
        for (; i < codes.Length; i++)
        {
            _sum += codes[i];
        }

        _count += codes.Length;
    }

    /// <summary>The current for the samples to come, from the codes seen since the last call; called before every 64th sample.</summary>
    /// <param name="nowMa">The current until now [mA].</param>
    /// <returns>The new current [mA], or that of now.</returns>
    public double Decide(double nowMa)
    {
        int count = _count;
        double mean = count == 0 ? 0 : (_sum / (double)count) - _zeroCode;
        _sum = 0;
        _count = 0;
        if (count == 0 || _isWaiting || (mean >= _lowCode && mean <= _highCode))
        {
            _isWaiting = false;
            return nowMa;
        }

        double middle = 0.5 * (_lowCode + _highCode);
        double factor = mean * LargestStep <= middle ? LargestStep : Math.Max(1 / LargestStep, middle / mean);
        double next = Math.Round(Math.Max(nowMa, LeastMa) * factor * StepsPerMa) / StepsPerMa;
        next = Math.Max(LeastMa, Math.Min(_mostMa, next));
        _isWaiting = next != nowMa;
        return next;
    }

    /// <summary>Forgets what it has seen, and does not judge the samples up to the next call of <see cref="Decide"/>: the channel goes on or off.</summary>
    public void Forget()
    {
        _sum = 0;
        _count = 0;
        _isWaiting = true;
    }

    /// <summary>An independent copy with the same state.</summary>
    public LevelControl Copy() => (LevelControl)MemberwiseClone();
}
