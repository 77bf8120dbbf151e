// SPDX-License-Identifier: MIT
using SensorSim.Sensing;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Tests.Running;

/// <summary>A stream whose acquisition also does what a script says, told with the read that reaches it.</summary>
internal sealed class ScriptedStream(SensorStream stream, params AcquisitionEvent[] script) : IAcquiredStream
{
    private int _next;

    public StreamFormat Format => stream.Format;

    public long PositionTick => stream.PositionTick;

    public long EndTick => stream.EndTick;

    public EventRing<AcquisitionEvent> Acquisition => stream.Acquisition;

    public IReadOnlyList<ChannelClock> Clocks => stream.Clocks;

    public EventRing<TruthEvent> Truth => stream.Truth;

    public void Read(SampleBlock block, long untilTick)
    {
        stream.Read(block, untilTick);
        for (; _next < script.Length && script[_next].BeginNs < Format.Clock.Nanoseconds(untilTick); _next++)
        {
            Acquisition.Add(script[_next]);
        }
    }
}
