// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Optics.Chain;

/// <summary>What a stream has at its converters, before rounding, with status words and acquisition events.</summary>
internal sealed class Analog
{
    private readonly Dictionary<ChannelName, List<double>> _values = [];

    public required Recording Recording { get; init; }

    public List<AcquisitionEvent> Events => Recording.Told;

    public double[] this[ChannelName name] => [.. _values[name]];

    public ushort[] Status(ChannelName name) => Recording.Status(name);

    public static Analog Of(KeyValues values, double seconds, ulong seed = 7, long blockTicks = 0)
    {
        var stream = new SensorStream(values, seed, seconds);
        var tapped = new Dictionary<ChannelName, List<double>>();
        stream.AnalogTap = (name, first, x) =>
        {
            if (!tapped.TryGetValue(name, out List<double>? list))
            {
                tapped[name] = list = [];
            }

            Assert.That(list, Has.Count.EqualTo(first));
            list.AddRange(x);
        };
        var analog = new Analog { Recording = Recording.OfRest(stream, blockTicks == 0 ? 10 * stream.Format.Clock.TicksPerSecond : blockTicks) };
        foreach ((ChannelName name, List<double> list) in tapped)
        {
            analog._values[name] = list;
        }

        return analog;
    }
}
