// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pressure;

/// <summary>One side of a tabular cumulative sum (Page 1954): C = max(0, C + u − k), and what is needed to say since when and how much.</summary>
/// <remarks>
/// Size: mean deviation since the sum last left 0 (Montgomery, statistical quality control; from memory), from the baseline of that day.
/// Input: standardised value and allowance in Q24.8 standard deviations, values within ±64; deviations in 1/256 mmHg, 17 bits.
/// Product: none.
/// Accumulator: 32 bits, the sum stops at a limit; the sums of a run stop counting after 2^13 values.
/// Worst case: 2^13 × 2^17 = 2^30.
/// Output: Q24.8, exact.
/// </remarks>
public struct Cusum
{
    private const int MostInRun = 1 << 13;
    private int _deviations256;
    private int _moved256;

    /// <summary>The sum [1/256 standard deviation].</summary>
    public int Sum256 { get; private set; }

    /// <summary>Values since the sum left 0.</summary>
    public ushort Count { get; private set; }

    /// <summary>Day of the first of them.</summary>
    public int BeganDay { get; private set; }

    /// <summary>Mean deviation of them [1/256 mmHg], rounded toward 0; 0 when there are none.</summary>
    public readonly int Size256 => Count == 0 ? 0 : _deviations256 / Count;

    /// <summary>Takes a value.</summary>
    /// <param name="standardised256">The value, upward as this side counts [1/256 standard deviation].</param>
    /// <param name="deviation256">How far it is from the baseline, upward as this side counts [1/256 mmHg].</param>
    /// <param name="allowance256">k [1/256 standard deviation].</param>
    /// <param name="most256">Where the sum stops [1/256 standard deviation].</param>
    /// <param name="day">Its day.</param>
    public void Add(int standardised256, int deviation256, int allowance256, int most256, int day)
    {
        int sum = Sum256 + standardised256 - allowance256;
        if (sum <= 0)
        {
            this = default;
            return;
        }

        BeganDay = Count == 0 ? day : BeganDay;
        Sum256 = sum > most256 ? most256 : sum;
        if (Count < MostInRun)
        {
            Count++;
            _deviations256 += deviation256 + _moved256;
        }
    }

    /// <summary>The baseline has moved: deviations from now on are counted from where it was.</summary>
    /// <param name="by256">By how much, upward as this side counts [1/256 mmHg].</param>
    public void Move(int by256) => _moved256 = Count == 0 ? 0 : Sat.Narrow(Sat.Add32(_moved256, by256), 1 << 16);
}
