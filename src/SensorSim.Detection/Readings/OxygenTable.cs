// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Readings;

/// <summary>From ratio of ratios to oxygen saturation, as calibrated: straight lines between up to 16 pairs.</summary>
/// <remarks>
/// Input: ratios in 1/10,000, up to 6.5; saturations in 1/1000 %, kept in steps of 2/1000 %.
/// Product: step of saturation × step of ratio, 33 bits.
/// Accumulator: 64 bits, once per pulse.
/// Worst case: beyond the table the value of its end.
/// Output: thousandths of a per cent, rounded to nearest; one long division.
/// </remarks>
public struct OxygenTable
{
    /// <summary>Most pairs.</summary>
    public const int MostPairs = Half16.Length;

    private Half16 _ratios;
    private Half16 _percents;
    private byte _count;

    /// <summary>The textbook line 110 − 25 R from 100 % down to 0 (Webster, Design of Pulse Oximeters, 1997; from memory; fair for R of 0.4 to 1.0).</summary>
    public static OxygenTable Textbook
    {
        get
        {
            OxygenTable table = default;
            table.Add(4000, 100_000);
            table.Add(44_000, 0);
            return table;
        }
    }

    /// <summary>Pairs held.</summary>
    public readonly int Count => _count;

    /// <summary>The lowest ratio [1/10,000].</summary>
    public readonly int LowestRatio => _ratios[0];

    /// <summary>The highest ratio [1/10,000]; meaningful when there are pairs.</summary>
    public readonly int HighestRatio => _ratios[(_count - 1) & (MostPairs - 1)];

    /// <summary>Adds a pair; ratios rise and saturations fall.</summary>
    /// <param name="ratio">Ratio of ratios [1/10,000], 1 to 65,535.</param>
    /// <param name="milliPercent">Saturation [1/1000 %], 0 to 100,000.</param>
    /// <returns>Whether the pair fits; when not, nothing changes.</returns>
    public bool Add(int ratio, int milliPercent)
    {
        int percent = Shift.Round(milliPercent, 1);
        if (_count == MostPairs || ratio < 1 || ratio > ushort.MaxValue || milliPercent < 0 || milliPercent > 100_000
            || (_count > 0 && (ratio <= _ratios[_count - 1] || percent >= _percents[_count - 1])))
        {
            return false;
        }

        _ratios[_count] = (ushort)ratio;
        _percents[_count] = (ushort)percent;
        _count++;
        return true;
    }

    /// <summary>Saturation at a ratio [1/1000 %]; 0 without pairs.</summary>
    /// <param name="ratio">Ratio of ratios [1/10,000].</param>
    public readonly int MilliPercent(int ratio)
    {
        if (_count == 0 || ratio <= _ratios[0])
        {
            return 2 * _percents[0];
        }

        int i = 1;
        while (i < _count && _ratios[i] < ratio)
        {
            i++;
        }

        if (i == _count)
        {
            return 2 * _percents[_count - 1];
        }

        uint fall = 2u * (uint)(_percents[i - 1] - _percents[i]);
        uint from = (uint)(ratio - _ratios[i - 1]);
        return (2 * _percents[i - 1]) - LongDivision.Rounded((ulong)fall * from, (uint)(_ratios[i] - _ratios[i - 1]));
    }
}
