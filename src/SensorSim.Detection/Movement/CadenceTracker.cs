// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics.X86;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Movement;

/// <summary>Steps per minute, from the up and down of the acceleration.</summary>
/// <remarks>
/// <para>Up is where gravity is: the body goes up and down with each step, while an arm swings with each second one. The autocorrelation of
/// five seconds has its first high peak at the interval of the steps; the last peak of a whole number of steps gives the interval finely.</para>
/// Input: codes of up to 20 bits, three axes.
/// Product: movement 15 bits × gravity 12 bits; two movements, 28 bits.
/// Accumulator: 32 bits for a sum of a dozen codes; 64 bits for 40 products.
/// Worst case: movement clips at ±8 g.
/// Output: thousandths of steps per minute, up to 300,000, every two seconds.
/// </remarks>
public partial struct CadenceTracker
{
    private const int Ring = 64;
    private const int ShortestLag = 3;
    private const int LongestLag = 23;
    private const int Products = Ring - LongestLag - 1;
    private const int Rail = (1 << 13) - 1;
    private const int LeastMg = 30;

    // Nobody takes more than five steps a second: what repeats faster is a machine.
    private const int MostMilliPerMin = 300_000;

    private Half64 _held;
    private Word4 _sums;
    private Word4 _gravity;
    private int _decimation;
    private int _phase;
    private int _scale;
    private int _rateMilliHz;
    private int _every;
    private int _at;
    private int _filled;
    private int _since;

    /// <summary>Steps [1/1000 per minute]; 0 where there are none.</summary>
    public int CadenceMilliPerMin { get; private set; }

    /// <summary>How much of the movement repeats with the steps, 0 to 255.</summary>
    public byte Quality { get; private set; }

    /// <summary>Whether the strongest repetition was that of the stride (two steps) and its half was taken.</summary>
    public bool IsFromStride { get; private set; }

    /// <summary>Prepares for a stream and drops all state.</summary>
    /// <param name="rateHz">Rate of the accelerometer [Hz], 12 to 1600.</param>
    /// <param name="codesPerG">Codes for 1 g, 16 to 2^19.</param>
    /// <returns>Whether the arguments are allowed.</returns>
    public bool Start(int rateHz, int codesPerG)
    {
        if (!MovementReference.IsAllowed(rateHz, codesPerG))
        {
            return false;
        }

        this = default;
        _decimation = rateHz < 25 ? 1 : ((2 * rateHz) + 12) / 25;
        _rateMilliHz = rateHz * 1000 / _decimation;
        _scale = (int)((1L << 26) / ((long)codesPerG * _decimation));
        _every = ((2 * _rateMilliHz) + 500) / 1000;
        return true;
    }

    /// <summary>Takes the next sample of the three axes.</summary>
    /// <param name="x">First axis.</param>
    /// <param name="y">Second axis.</param>
    /// <param name="z">Third axis.</param>
    /// <returns>Whether there is a new cadence.</returns>
    public bool Next(int x, int y, int z)
    {
        _sums[0] += x;
        _sums[1] += y;
        _sums[2] += z;
        if (++_phase < _decimation)
        {
            return false;
        }

        _phase = 0;
        AddUpward();
        if (++_since < _every || _filled < Ring)
        {
            return false;
        }

        _since = 0;
        Decide();
        return true;
    }

    private void AddUpward()
    {
        long up = 0;
        for (int axis = 0; axis < 3; axis++)
        {
            // In 1/1024 g; gravity with 12 bits more, a mean of 32 samples.
            int value = Wide.Narrow(Wide.RoundWithRoom((long)_sums[axis] * _scale, 16), 2 * Rail);
            _sums[axis] = 0;
            if (_filled == 0)
            {
                _gravity[axis] = value << 12;
            }

            int level = Shift.RoundWithRoom(_gravity[axis], 12);
            up += (long)(value - level) * level;
            _gravity[axis] += Shift.RoundWithRoom((value << 12) - _gravity[axis], 5);
        }

        _held[_at & (Ring - 1)] = (short)Wide.Narrow(Wide.Round(up, 10), Rail);
        _at = (_at + 1) & (Ring - 1);
        _filled += _filled < Ring ? 1 : 0;
    }

    private readonly long Repeats(int lag)
    {
        if (Avx2.IsSupported)
        {
            return RepeatsInLanes(lag);
        }

        long sum = 0;
        for (int i = 0; i < Products; i++)
        {
            int now = _at - 1 - i;
            sum += (long)_held[now & (Ring - 1)] * _held[(now - lag) & (Ring - 1)];
        }

        return sum;
    }

    private void Decide()
    {
        // 32 words: lags 0 to 24, so that 23 has both neighbours; 22 bits after a common shift.
        long power = Repeats(0);
        CadenceMilliPerMin = 0;
        Quality = 0;
        IsFromStride = false;
        if (power < (long)LeastMg * LeastMg * Products)
        {
            return;
        }

        int shift = Wide.Bits(power) - 22;
        shift = shift < 0 ? 0 : shift;
        Word64 repeats = default;
        for (int lag = 0; lag <= LongestLag + 1; lag++)
        {
            repeats[lag] = (int)Wide.Round(lag == 0 ? power : Repeats(lag), shift);
        }

        int first = FirstPeak(repeats);
        if (first == 0)
        {
            return;
        }

        int lag256 = Finer(repeats, first);
        int cadence = LongDivision.Rounded((ulong)_rateMilliHz * 60 * 256, (uint)lag256);
        if (cadence > MostMilliPerMin)
        {
            IsFromStride = false;
            return;
        }

        CadenceMilliPerMin = cadence;
        int share = repeats[first] <= 0 ? 0 : LongDivision.Rounded((ulong)repeats[first] << 8, (uint)(repeats[0] + 1));
        Quality = (byte)(share > 255 ? 255 : share);
    }

    private static bool IsPeak(in Word64 repeats, int lag) =>
        repeats[lag] > 0 && repeats[lag] >= repeats[lag - 1] && repeats[lag] > repeats[lag + 1];

    // The shortest lag whose peak is nearly the highest; where that is long and its half repeats too, it was the stride.
    private int FirstPeak(in Word64 repeats)
    {
        int highest = 0;
        for (int lag = ShortestLag; lag <= LongestLag; lag++)
        {
            highest = IsPeak(repeats, lag) && repeats[lag] > highest ? repeats[lag] : highest;
        }

        int found = 0;
        for (int lag = ShortestLag; lag <= LongestLag && found == 0; lag++)
        {
            found = IsPeak(repeats, lag) && repeats[lag] >= highest - (highest >> 2) ? lag : 0;
        }

        if (found * 10_000 <= 7 * _rateMilliHz)
        {
            return found;
        }

        for (int lag = (found >> 1) + 1; lag >= (found >> 1) && lag >= ShortestLag; lag--)
        {
            if (IsPeak(repeats, lag))
            {
                IsFromStride = true;
                return lag;
            }
        }

        return found;
    }

    // The peak at a whole number of steps is as wide as the first one, but counts for so many.
    private static int Finer(in Word64 repeats, int first)
    {
        int lag256 = (first * 256) + Parabola.Vertex256(repeats[first - 1], repeats[first], repeats[first + 1]);
        for (int steps = 2; steps < 6; steps++)
        {
            int expected = ((lag256 * steps) + 128) >> 8;
            int at = expected;
            for (int lag = expected - 1; lag <= expected + 1 && lag <= LongestLag; lag++)
            {
                at = IsPeak(repeats, lag) ? lag : at;
            }

            if (at > LongestLag || !IsPeak(repeats, at) || repeats[at] < repeats[first] >> 1)
            {
                break;
            }

            lag256 = ((at * 256) + Parabola.Vertex256(repeats[at - 1], repeats[at], repeats[at + 1]) + (steps >> 1)) / steps;
        }

        return lag256;
    }
}
