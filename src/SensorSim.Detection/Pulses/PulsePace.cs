// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pulses;

/// <summary>Side stage: how long ago the last pulse was, how long a beat usually takes, and whether one has been lost.</summary>
/// <remarks>
/// Input: counts of working samples.
/// Product: none.
/// Accumulator: 32 bits, counts stop at 2^29.
/// Worst case: none.
/// Output: working samples.
/// </remarks>
public struct PulsePace
{
    private const int Longest = 1 << 29;
    private bool _isLost;
    private int _silenceBefore;

    /// <summary>Working samples since the steepest point of the last pulse, or since the run began.</summary>
    public int Since { get; private set; }

    /// <summary>Working samples since the last pulse, gaps not counted, whatever run it was in.</summary>
    public readonly int Silence => _silenceBefore + Since;

    /// <summary>A slow mean of the intervals; 0 while there is none.</summary>
    public int Interval { get; private set; }

    /// <summary>Whether the run has a pulse.</summary>
    public bool HasPulse { get; private set; }

    /// <summary>A run begins.</summary>
    public void BeginRun()
    {
        _silenceBefore = Silence < Longest ? Silence : Longest;
        HasPulse = false;
        Since = 0;
        _isLost = false;
    }

    /// <summary>Working samples have passed.</summary>
    /// <param name="count">How many.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Next(int count) => Since += count;

    /// <summary>Keeps counts from running over; twice a second.</summary>
    public void Limit() => Since = Since < Longest ? Since : Longest;

    /// <summary>There was a pulse that could not be told.</summary>
    public void Lose() => _isLost = true;

    /// <summary>Whether there is no interval to the pulse that is being told.</summary>
    public readonly bool IsStart => !HasPulse || _isLost;

    /// <summary>A pulse was told.</summary>
    /// <param name="since">Working samples from the last one to it.</param>
    /// <param name="ago">How long ago its steepest point is.</param>
    /// <param name="first">What the interval is taken for before there is one.</param>
    public void Add(int since, int ago, int first)
    {
        if (!HasPulse)
        {
            Interval = Interval == 0 ? first : Interval;
        }
        else if (!_isLost)
        {
            // A quarter of each new one; a pulse may have been missed, so long ones count as one and a half.
            int longest = Interval + (Interval >> 1);
            Interval += Shift.Round((since < longest ? since : longest) - Interval, 2);
        }

        HasPulse = true;
        _isLost = false;
        Since = ago;
        _silenceBefore = 0;
    }
}
