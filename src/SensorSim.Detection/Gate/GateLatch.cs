// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Gate;

/// <summary>Open or shut, since when and why: shuts at once, opens again only after a time that grows when it shuts soon after.</summary>
/// <remarks>
/// Input: a reason to be shut, or none, in order of time.
/// Product: none.
/// Accumulator: none; 64 bits of time.
/// Worst case: shut and open again every 3 s, as contact comes and goes; when the signal itself is doubtful, every 12 s.
/// Output: a state and its reason.
/// </remarks>
public struct GateLatch
{
    // An opening that did not last this long was premature: the next wait doubles, twice at most.
    private const int ShortestOpenMs = 10_000;
    private const int MostDoublings = 2;

    // This long without a fault clears the record.
    private const int ForgivenAfterMs = 30_000;

    private short _shortestShutMs;
    private byte _doublings;
    private bool _wasOpen;

    /// <summary>Whether it is open.</summary>
    public bool IsOpen { get; private set; }

    /// <summary>Why it is shut; none while it is open.</summary>
    public GateReason Reason { get; private set; }

    /// <summary>When it last opened or shut [1/256 tick].</summary>
    public long SinceTicks256 { get; private set; }

    /// <summary>Shut, waiting, from time 0.</summary>
    /// <param name="shortestShutMs">Shut at least this long [ms]: three seconds are about three beats, the least that a trend of them can be seen in.</param>
    public void Start(int shortestShutMs = 3000)
    {
        this = default;
        _shortestShutMs = (short)shortestShutMs;
        Reason = GateReason.Waiting;
    }

    /// <summary>Takes the present judgement.</summary>
    /// <param name="time">The unit of time.</param>
    /// <param name="ticks256">Now [1/256 tick].</param>
    /// <param name="reason">Why it should be shut; none when it should be open.</param>
    /// <returns>Whether it opened or shut.</returns>
    public bool Next(in GateTime time, long ticks256, GateReason reason)
    {
        int since = time.Units(ticks256 - SinceTicks256);
        if (IsOpen)
        {
            if (reason == GateReason.None)
            {
                return false;
            }

            Note(time, since, reason);
            IsOpen = false;
            Reason = reason;
            SinceTicks256 = ticks256;
            return true;
        }

        if (reason != GateReason.None)
        {
            Reason = reason;
            return false;
        }

        // The first opening waits for evidence only.
        if (_wasOpen && since < time.FromMs(_shortestShutMs << _doublings))
        {
            return false;
        }

        IsOpen = true;
        _wasOpen = true;
        Reason = GateReason.None;
        SinceTicks256 = ticks256;
        return true;
    }

    /// <summary>Remembers whether the opening that ends now was premature. What the sensor itself reports is nobody's mistake.</summary>
    private void Note(in GateTime time, int openFor, GateReason reason)
    {
        if (openFor >= time.FromMs(ForgivenAfterMs))
        {
            _doublings = 0;
        }

        bool isDoubt = reason is GateReason.Irregular or GateReason.TooWeak or GateReason.Ambient;
        if (isDoubt && openFor < time.FromMs(ShortestOpenMs) && _doublings < MostDoublings)
        {
            _doublings++;
        }
    }
}
