// SPDX-License-Identifier: MIT
namespace SensorSim.Links.Pacing;

/// <summary>Holds a stream to real time, or to a multiple of it.</summary>
/// <remarks>
/// Every instant is due at begin + stream time / speed. The schedule is absolute: a late frame makes no later one late, so nothing drifts. Waiting
/// is sleep, then a short spin, because a sleep alone ends a millisecond or more too late. How late each instant came is kept in <see cref="Error"/>.
/// </remarks>
public sealed class Pacer
{
    /// <summary>Highest speed.</summary>
    public const double HighestSpeed = 10_000;

    /// <summary>Lowest speed.</summary>
    public const double LowestSpeed = 0.01;

    private const double SpinMs = 1.5;
    private const int SpinTurns = 20;

    private readonly TimeProvider _time;
    private readonly Func<int, CancellationToken, bool> _sleepMs;
    private readonly double _clockPerNs;
    private long _begin;
    private long _beginNs;
    private bool _hasBegun;

    /// <summary>Creates a pacer; the schedule begins with <see cref="Begin"/>.</summary>
    /// <param name="time">The clock.</param>
    /// <param name="speed">Stream seconds in one second, <see cref="LowestSpeed"/> to <see cref="HighestSpeed"/>; 1 is real time.</param>
    /// <exception cref="ArgumentOutOfRangeException">The speed is out of range.</exception>
    public Pacer(TimeProvider time, double speed = 1)
        : this(time, speed, static (ms, cancellation) => cancellation.WaitHandle.WaitOne(ms))
    {
    }

    /// <summary>Creates a pacer with its own way to sleep.</summary>
    /// <param name="time">The clock.</param>
    /// <param name="speed">Stream seconds in one second.</param>
    /// <param name="sleepMs">Sleeps for about this time [ms]; true when it was ended by the token.</param>
    internal Pacer(TimeProvider time, double speed, Func<int, CancellationToken, bool> sleepMs)
    {
        ArgumentNullException.ThrowIfNull(time);
        if (!(speed is >= LowestSpeed and <= HighestSpeed))
        {
            throw new ArgumentOutOfRangeException(nameof(speed), speed, "The speed is 0.01 to 10,000 times real time.");
        }

        _time = time;
        _sleepMs = sleepMs;
        Speed = speed;
        _clockPerNs = time.TimestampFrequency / 1e9 / speed;
    }

    /// <summary>Stream seconds in one second.</summary>
    public double Speed { get; }

    /// <summary>How late each instant was waited out [µs]. No instant is ever early.</summary>
    public TimeHistogram Error { get; } = new();

    /// <summary>Begins the schedule: this instant of the stream is now. Begins it anew when it had begun, as after a link was lost.</summary>
    /// <param name="streamNs">Instant of the stream [ns].</param>
    public void Begin(long streamNs)
    {
        _begin = _time.GetTimestamp();
        _beginNs = streamNs;
        _hasBegun = true;
    }

    /// <summary>The moment at which an instant of the stream is due, in the clock's own counts (<see cref="TimeProvider.GetTimestamp"/>).</summary>
    /// <param name="streamNs">Instant of the stream [ns].</param>
    public long DueTimestamp(long streamNs)
    {
        ThrowIfNotBegun();
        return Due(streamNs);
    }

    /// <summary>How long ago an instant of the stream was due; negative when it is still to come.</summary>
    /// <param name="streamNs">Instant of the stream [ns].</param>
    public TimeSpan Lateness(long streamNs)
    {
        ThrowIfNotBegun();
        return _time.GetElapsedTime(Due(streamNs));
    }

    /// <summary>Waits until an instant of the stream is due and notes how late that was. Returns at once when it is past.</summary>
    /// <param name="streamNs">Instant of the stream [ns].</param>
    /// <param name="cancellation">Ends the waiting.</param>
    /// <returns>False when the token ended it; then nothing is noted.</returns>
    public bool WaitUntil(long streamNs, CancellationToken cancellation = default)
    {
        ThrowIfNotBegun();
        long due = Due(streamNs);
        while (true)
        {
            if (cancellation.IsCancellationRequested)
            {
                return false;
            }

            double leftMs = -_time.GetElapsedTime(due).TotalMilliseconds;
            if (leftMs <= 0)
            {
                Error.Add((long)Math.Round(-leftMs * 1000));
                return true;
            }

            if (leftMs > SpinMs + 1)
            {
                if (_sleepMs((int)Math.Min(int.MaxValue, leftMs - SpinMs), cancellation))
                {
                    return false;
                }
            }
            else
            {
                // Without giving the processor away: on a busy machine it comes back milliseconds later.
                Thread.SpinWait(SpinTurns);
            }
        }
    }

    // From the begin each time, never from the instant before: rounding does not add up.
    private long Due(long streamNs) => _begin + (long)Math.Round((streamNs - _beginNs) * _clockPerNs);

    private void ThrowIfNotBegun()
    {
        if (!_hasBegun)
        {
            throw new InvalidOperationException("The schedule has not begun.");
        }
    }
}
