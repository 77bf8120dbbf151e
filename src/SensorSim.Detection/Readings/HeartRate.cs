// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Readings;

/// <summary>Heart rate: eight RR intervals without a gap between them, as 8 / (last R − first R).</summary>
/// <remarks>
/// Input: places of R peaks in 1/256 sample.
/// Product: 60,000 × 8 × 256 × rate, 37 bits at 1000 Hz.
/// Accumulator: 64 bits, once per beat; the divisor fits in 31 bits up to 2^23 samples.
/// Worst case: quotients above 2^31 − 1 clip.
/// Output: thousandths of a beat per minute, rounded to nearest; one long division per beat.
/// </remarks>
public struct HeartRate
{
    private const int Intervals = 8;
    private Place16 _peaks;
    private int _count;
    private int _at;
    private ulong _numerator;

    /// <summary>The latest value [1/1000 bpm].</summary>
    public int RateMilliBpm { get; private set; }

    /// <summary>From the first to the last R peak used [samples of the ECG channel], rounded to nearest.</summary>
    public long WindowSamples { get; private set; }

    /// <summary>Forgets.</summary>
    /// <param name="rateHz">Sampling rate of the ECG channel [Hz].</param>
    public void Start(int rateHz)
    {
        this = default;
        _numerator = 60_000UL * 256 * Intervals * (uint)rateHz;
    }

    /// <summary>Takes a beat.</summary>
    /// <param name="beat">The beat.</param>
    /// <returns>Whether there are eight intervals and so a new value.</returns>
    public bool Add(in BeatEvent beat)
    {
        if (beat.StartsRun)
        {
            _count = 0;
        }

        long here = beat.RPeak.In256;
        long first = _peaks[(_at - Intervals) & (Place16.Length - 1)];
        _peaks[_at] = here;
        _at = (_at + 1) & (Place16.Length - 1);
        if (_count < Intervals)
        {
            _count++;
            return false;
        }

        long span = here - first;
        if (span <= 0 || span > int.MaxValue)
        {
            return false;
        }

        RateMilliBpm = LongDivision.Rounded(_numerator, (uint)span);
        WindowSamples = (span + 128) >> 8;
        return true;
    }
}
