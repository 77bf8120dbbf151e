// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Running;

/// <summary>Closes the loop: what a detector asks for at tick k takes effect at k + latency.</summary>
/// <remarks>
/// <para>Samples are handed over in quanta of 100 ms, so k is the end of a quantum: what the detector had seen. Every change is told
/// in ascending order of ticks, planned ones too: replayed from there in an open loop, the stream is the same to the bit for any cut.</para>
/// <para>A request that wants to act earlier is moved to k + latency; a value out of range is clamped; what the channel does not have is
/// refused. Constant memory; what finds no room is counted.</para>
/// </remarks>
public sealed class ControlLoop
{
    /// <summary>Quanta in a second.</summary>
    public const int QuantaPerSecond = 10;

    /// <summary>Shortest latency [ms]: one quantum.</summary>
    public const int ShortestLatencyMs = 1000 / QuantaPerSecond;

    /// <summary>Requests that wait for their time.</summary>
    public const int Capacity = 256;

    private readonly IAdjustableStream _stream;
    private readonly long _ticksPerSecond;
    private readonly long _latencyTicks;
    private readonly SettingsRequest[] _waiting = new SettingsRequest[Capacity];
    private int _waitingCount;
    private int _nextPlanned;
    private long _ringOverflow;

    /// <summary>Creates a loop around a stream at its start.</summary>
    /// <param name="stream">The stream.</param>
    /// <param name="latencyMs">Time from the end of the quantum in which a request was made to its effect [ms], at least <see cref="ShortestLatencyMs"/>.</param>
    public ControlLoop(IAdjustableStream stream, int latencyMs = ShortestLatencyMs)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentOutOfRangeException.ThrowIfLessThan(latencyMs, ShortestLatencyMs);
        _stream = stream;
        _ticksPerSecond = stream.Format.Clock.TicksPerSecond;
        _latencyTicks = ((latencyMs * _ticksPerSecond) + 999) / 1000;
        LatencyMs = latencyMs;
    }

    /// <summary>Time from the end of the quantum in which a request was made to its effect [ms].</summary>
    public int LatencyMs { get; }

    /// <summary>Changes that took effect, planned ones included.</summary>
    public long EffectiveCount { get; private set; }

    /// <summary>Requests that the detector made.</summary>
    public long RequestCount { get; private set; }

    /// <summary>Requests that wanted to act earlier than the latency allows, and were moved.</summary>
    public long MovedCount { get; private set; }

    /// <summary>Requests whose value was clamped into its range.</summary>
    public long ClampedCount { get; private set; }

    /// <summary>Requests of a channel or setting that there is not, or of a value between two steps.</summary>
    public long RefusedCount { get; private set; }

    /// <summary>Requests that found no room.</summary>
    public long OverflowCount { get; private set; }

    /// <summary>End of the quantum that begins at or holds a tick.</summary>
    /// <param name="tick">The tick.</param>
    public long QuantumEnd(long tick)
    {
        // Quantum n ends at the first tick at or after (n + 1) × 100 ms.
        long n = (long)((Int128)tick * QuantaPerSecond / _ticksPerSecond) + 1;
        return Math.Max(tick + 1, (long)((((Int128)n * _ticksPerSecond) + QuantaPerSecond - 1) / QuantaPerSecond));
    }

    /// <summary>Hands the changes of the next quantum to the stream; called before it is read.</summary>
    /// <param name="endTick">End of the quantum.</param>
    /// <param name="sinks">Told each change.</param>
    public void Release(long endTick, ReadOnlySpan<IRunSink> sinks)
    {
        IReadOnlyList<SettingsRequest> planned = _stream.Planned;
        int released = 0;
        while (true)
        {
            long ofPlanned = _nextPlanned < planned.Count ? planned[_nextPlanned].EffectiveTick : long.MaxValue;
            long ofWaiting = released < _waitingCount ? _waiting[released].EffectiveTick : long.MaxValue;
            if (Math.Min(ofPlanned, ofWaiting) >= endTick)
            {
                break;
            }

            // Of the same tick the planned one comes first, as in the stream.
            if (ofPlanned <= ofWaiting)
            {
                Tell(planned[_nextPlanned++], sinks);
            }
            else if (_stream.Schedule(_waiting[released]))
            {
                Tell(_waiting[released++], sinks);
            }
            else
            {
                OverflowCount++;
                released++;
            }
        }

        _waitingCount -= released;
        Array.Copy(_waiting, released, _waiting, 0, _waitingCount);
    }

    /// <summary>Takes the detector's requests; called after it has seen a quantum.</summary>
    /// <param name="requests">The requests; emptied.</param>
    /// <param name="tick">End of the quantum.</param>
    public void Take(EventRing<SettingsRequest> requests, long tick)
    {
        ArgumentNullException.ThrowIfNull(requests);
        OverflowCount += requests.OverflowCount - _ringOverflow;
        RequestCount += requests.OverflowCount - _ringOverflow;
        _ringOverflow = requests.OverflowCount;
        while (requests.TryTake(out SettingsRequest request))
        {
            RequestCount++;
            Take(request, tick + _latencyTicks);
        }
    }

    private void Take(in SettingsRequest request, long earliestTick)
    {
        SettingLimits limits = _stream.Limits(request.Channel, request.Setting);
        int milli = Math.Min(Math.Max(request.ValueMilli, limits.MinimumMilli), limits.MaximumMilli);
        if (!limits.Exists || !limits.Allows(milli))
        {
            RefusedCount++;
            return;
        }

        ClampedCount += milli != request.ValueMilli ? 1 : 0;
        MovedCount += request.EffectiveTick != 0 && request.EffectiveTick < earliestTick ? 1 : 0;
        if (_waitingCount == Capacity)
        {
            OverflowCount++;
            return;
        }

        // In order of time; of the same tick in order of asking.
        var taken = new SettingsRequest(request.Channel, request.Setting, milli, Math.Max(request.EffectiveTick, earliestTick));
        int place = _waitingCount++;
        while (place > 0 && _waiting[place - 1].EffectiveTick > taken.EffectiveTick)
        {
            _waiting[place] = _waiting[place - 1];
            place--;
        }

        _waiting[place] = taken;
    }

    private void Tell(in SettingsRequest row, ReadOnlySpan<IRunSink> sinks)
    {
        EffectiveCount++;
        var change = new SettingChange(
            _stream.Format.Channels[row.Channel].Name, row.Setting, row.ValueMilli, _stream.Format.Clock.Nanoseconds(row.EffectiveTick));
        foreach (IRunSink sink in sinks)
        {
            sink.OnSetting(change);
        }
    }
}
