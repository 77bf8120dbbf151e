// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Gate;

/// <summary>Whether a channel's samples can be used, from its status words and from what did not come.</summary>
/// <remarks>
/// Input: begins and ends of unusable stretches, in order of time.
/// Product: none.
/// Accumulator: 64 bits of time.
/// Worst case: one stretch after the other; each counts from its own begin.
/// Output: a reason, or none.
/// </remarks>
public struct Usable
{
    // Lost samples disturb nothing but themselves: detectors bridge a quarter of a second, and start anew after more.
    // One beat may fall into this much.
    private const int LostMs = 1000;

    // A saturated or open input rings for longer than it lasts; a few clamped samples do not.
    private const int FlaggedMs = 100;

    // Three seconds of good signal come before a reading.
    private const int SettleMs = 3000;

    // Time for a detector to start anew: two seconds of learning and some beats.
    private const int RecentMs = 5000;

    private long _from256;
    private GateReason _reason;
    private bool _isLong;

    /// <summary>Whether samples are unusable now.</summary>
    public bool IsBad { get; private set; }

    /// <summary>A stretch of unusable samples begins or goes on.</summary>
    /// <param name="ticks256">Now [1/256 tick].</param>
    /// <param name="flags">Status bits (<see cref="SampleFlags"/>); 0 when samples do not come.</param>
    public void Bad(long ticks256, ushort flags)
    {
        GateReason reason = (flags & (SampleFlags.LeadOff | SampleFlags.NoContact)) != 0 ? GateReason.NoContact
            : flags != 0 ? GateReason.Saturated
            : GateReason.NoSamples;
        if (!IsBad)
        {
            // A short stretch does not hide that an earlier long one is not yet three seconds past.
            _from256 = ticks256;
            IsBad = true;
            _reason = reason;
        }
        else if (reason < _reason)
        {
            // What says more stays: contact before saturation before silence.
            _reason = reason;
        }
    }

    /// <summary>Usable samples come again.</summary>
    /// <param name="time">The unit of time.</param>
    /// <param name="ticks256">The first of them [1/256 tick].</param>
    /// <returns>Whether the stretch was so long that what was known of the signal is void.</returns>
    public bool Good(in GateTime time, long ticks256)
    {
        if (!IsBad)
        {
            return false;
        }

        bool isLong = IsTooLong(time, ticks256);
        IsBad = false;
        _isLong |= isLong;
        _from256 = ticks256;
        return isLong;
    }

    /// <summary>Why no reading may be given; none when one may.</summary>
    /// <param name="time">The unit of time.</param>
    /// <param name="ticks256">Now [1/256 tick].</param>
    public GateReason Judge(in GateTime time, long ticks256)
    {
        if (IsBad)
        {
            return _isLong || IsTooLong(time, ticks256) ? _reason : GateReason.None;
        }

        if (_isLong && time.Units(ticks256 - _from256) >= time.FromMs(SettleMs))
        {
            _isLong = false;
        }

        return _isLong ? _reason : GateReason.None;
    }

    /// <summary>What was wrong with the samples a short while ago: it may be why nothing is found.</summary>
    /// <param name="time">The unit of time.</param>
    /// <param name="ticks256">Now [1/256 tick].</param>
    public readonly GateReason Recent(in GateTime time, long ticks256) =>
        IsBad || time.Units(ticks256 - _from256) < time.FromMs(RecentMs) ? _reason : GateReason.None;

    private readonly bool IsTooLong(in GateTime time, long ticks256) =>
        time.Units(ticks256 - _from256) > time.FromMs(_reason == GateReason.NoSamples ? LostMs : FlaggedMs);
}
