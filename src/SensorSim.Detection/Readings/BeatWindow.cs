// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Readings;

/// <summary>How far back the last eight pulses reach, for readings that are means over them.</summary>
/// <remarks>
/// Input: places in 1/256 tick.
/// Product: none.
/// Accumulator: 32 bits for eight intervals of 16 bits, in steps of 1/4096 s.
/// Worst case: an interval of 16 s or more clips and ends the row.
/// Output: 1/256 tick, within 1 ms over eight intervals; two long divisions per pulse.
/// </remarks>
public struct BeatWindow
{
    private const int StepsPerSecond = 4096;
    private const int Mask = Half8.Length - 1;

    private Half8 _intervals;
    private BeatClock _clock;
    private byte _at;
    private bool _hasLast;

    /// <summary>The latest place [1/256 tick].</summary>
    public long End256 { get; private set; }

    /// <summary>Forgets.</summary>
    /// <param name="clock">The common clock.</param>
    public void Start(CommonClock clock)
    {
        this = default;
        _clock.Start(clock);
    }

    /// <summary>Takes a place.</summary>
    /// <param name="ticks256">The place [1/256 tick].</param>
    /// <param name="startsRun">Whether what came before does not belong to it.</param>
    /// <returns>Whether the places before still count.</returns>
    public bool Add(long ticks256, bool startsRun)
    {
        int interval = _hasLast ? _clock.Steps(_clock.Span(End256, ticks256), StepsPerSecond) : 0;
        bool goesOn = _hasLast && !startsRun && interval < ushort.MaxValue;
        _intervals[_at] = (ushort)(goesOn ? interval : 0);
        _at = (byte)((_at + 1) & Mask);
        _hasLast = true;
        End256 = ticks256;
        return goesOn;
    }

    /// <summary>From the oldest to the latest of so many places [1/256 tick].</summary>
    /// <param name="places">1 to 8.</param>
    public readonly long Length256(int places)
    {
        long steps = 0;
        for (int i = 0; i < places - 1; i++)
        {
            steps += _intervals[(_at - 1 - i) & Mask];
        }

        return _clock.Ticks256(Wide.Floor((steps * _clock.UnitsPerSecond) + (StepsPerSecond / 2), 12));
    }
}
