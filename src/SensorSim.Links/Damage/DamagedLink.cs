// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Signals.Randomness;

namespace SensorSim.Links.Damage;

/// <summary>A link that damages whole frames on purpose, so that both ends can show what they do about it. Same seed, same damage.</summary>
/// <remarks>
/// Frames are found by their 00; nothing is known of their content. Bytes that are held back go out when they are due and somebody calls
/// <see cref="Read"/> or <see cref="Write"/>. What is still held back at <see cref="Dispose"/> is lost.
/// </remarks>
public sealed class DamagedLink : ILink
{
    private static readonly TimeSpan LongestWait = TimeSpan.FromMilliseconds(250);

    private readonly ILink _inner;
    private readonly TimeProvider _time;
    private readonly long _begin;
    private readonly object _outGate = new();
    private readonly FaultLane? _outLane;
    private readonly FaultLane? _inLane;
    private readonly byte[] _outBytes = new byte[FaultLane.MostAtOnce];
    private readonly byte[] _inBytes = new byte[FaultLane.MostAtOnce];

    /// <summary>Puts faults on a link; it owns the link from here on.</summary>
    /// <param name="inner">The link.</param>
    /// <param name="plan">What is done.</param>
    /// <param name="time">The clock of delays; the system's when null.</param>
    /// <exception cref="ArgumentException">The plan's numbers are out of range.</exception>
    public DamagedLink(ILink inner, DamagePlan plan, TimeProvider? time = null)
    {
        ArgumentNullException.ThrowIfNull(inner);
        ArgumentNullException.ThrowIfNull(plan);
        try
        {
            plan.Checked();
        }
        catch (FormatException e)
        {
            throw new ArgumentException(e.Message, nameof(plan), e);
        }

        _inner = inner;
        _time = time ?? TimeProvider.System;
        _begin = _time.GetTimestamp();
        _outLane = plan.Direction.HasFlag(DamageDirection.ToBoard) ? new FaultLane(plan, new KeyedRandom(plan.Seed, "link.to_board")) : null;
        _inLane = plan.Direction.HasFlag(DamageDirection.FromBoard) ? new FaultLane(plan, new KeyedRandom(plan.Seed, "link.from_board")) : null;
    }

    /// <inheritdoc/>
    public string Name => _inner.Name;

    /// <inheritdoc/>
    public long? BytesPerSecond => _inner.BytesPerSecond;

    /// <summary>What was done to the frames that were written.</summary>
    public DamageCounts ToBoard
    {
        get
        {
            lock (_outGate)
            {
                return _outLane?.Counts ?? default;
            }
        }
    }

    /// <summary>What was done to the frames that were read. Ask on the thread that reads.</summary>
    public DamageCounts FromBoard => _inLane?.Counts ?? default;

    /// <inheritdoc/>
    public int Read(Span<byte> buffer, TimeSpan atMost)
    {
        if (buffer.IsEmpty)
        {
            return 0;
        }

        double endMs = NowMs() + atMost.TotalMilliseconds;
        while (true)
        {
            double outDueMs = SendDue();
            if (_inLane is null)
            {
                int direct = _inner.Read(buffer, WaitUntil(Math.Min(endMs, outDueMs)));
                if (direct > 0)
                {
                    return direct;
                }
            }
            else
            {
                int given = _inLane.Give(buffer, NowMs());
                if (given > 0)
                {
                    return given;
                }

                TimeSpan wait = WaitUntil(Math.Min(endMs, Math.Min(outDueMs, _inLane.NextDueMs)));
                if (_inLane.HasRoom)
                {
                    int count = _inner.Read(_inBytes, wait);
                    _inLane.Take(_inBytes.AsSpan(0, count), NowMs());
                    if (count > 0)
                    {
                        continue;
                    }
                }
                else
                {
                    Pause(wait);
                }
            }

            if (NowMs() >= endMs)
            {
                return 0;
            }
        }
    }

    /// <inheritdoc/>
    public void Write(ReadOnlySpan<byte> bytes)
    {
        if (_outLane is null)
        {
            _inner.Write(bytes);
            return;
        }

        while (!bytes.IsEmpty)
        {
            bool isTaken;
            lock (_outGate)
            {
                isTaken = _outLane.HasRoom;
                if (isTaken)
                {
                    int count = Math.Min(bytes.Length, FaultLane.MostAtOnce);
                    _outLane.Take(bytes[..count], NowMs());
                    bytes = bytes[count..];
                }
            }

            double nextMs = SendDue();
            if (!isTaken)
            {
                Pause(WaitUntil(nextMs));
            }
        }
    }

    /// <summary>Closes the link below.</summary>
    public void Dispose() => _inner.Dispose();

    /// <summary>The link's name and what was done each way.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Name}, to board {ToBoard}, from board {FromBoard}");

    private double NowMs() => _time.GetElapsedTime(_begin).TotalMilliseconds;

    private TimeSpan WaitUntil(double dueMs)
    {
        double leftMs = Math.Min(dueMs - NowMs(), LongestWait.TotalMilliseconds);
        return leftMs <= 0 ? TimeSpan.Zero : TimeSpan.FromMilliseconds(Math.Ceiling(leftMs));
    }

    // Writes what is due and says when more will be.
    private double SendDue()
    {
        if (_outLane is null)
        {
            return double.PositiveInfinity;
        }

        lock (_outGate)
        {
            int count;
            while ((count = _outLane.Give(_outBytes, NowMs())) > 0)
            {
                _inner.Write(_outBytes.AsSpan(0, count));
            }

            return _outLane.NextDueMs;
        }
    }

    private static void Pause(TimeSpan wait) => CancellationToken.None.WaitHandle.WaitOne(wait);
}
