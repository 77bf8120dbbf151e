// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Support;

/// <summary>Stretches that the acquisition told, pieces that touch joined.</summary>
internal sealed class Stretches
{
    private readonly Dictionary<(ChannelName, AcquisitionKind), (long Begin, long End)> _open = [];
    private readonly List<(ChannelName Channel, AcquisitionKind Kind, long BeginNs, long EndNs)> _closed = [];

    /// <summary>Those of what is left of a stream, read in blocks of the given lengths [ticks], over and over.</summary>
    public static Stretches OfRest(SensorStream stream, params long[] cuts)
    {
        var stretches = new Stretches();
        var block = new SampleBlock(stream.Format, cuts.Max());
        for (int i = 0; stream.PositionTick < stream.EndTick; i++)
        {
            stream.Read(block, Math.Min(stream.EndTick, stream.PositionTick + cuts[i % cuts.Length]));
            stretches.Take(stream.Acquisition);
            while (stream.Truth.TryTake(out _))
            {
            }
        }

        Assert.That(stream.Acquisition.OverflowCount, Is.Zero);
        return stretches;
    }

    /// <summary>Every stretch as text, by channel, kind and begin.</summary>
    public string[] Text => [.. _closed.Concat(_open.Select(o => (o.Key.Item1, o.Key.Item2, o.Value.Begin, o.Value.End)))
        .Order()
        .Select(s => $"{s.Item1} {s.Item2} {s.Item3} {s.Item4}")];

    /// <summary>Takes every piece out of a ring; pieces of one channel and kind must come in order.</summary>
    public void Take(EventRing<AcquisitionEvent> ring)
    {
        while (ring.TryTake(out AcquisitionEvent piece))
        {
            Assert.That(piece.EndNs, Is.GreaterThan(piece.BeginNs));
            Assert.That(piece.Value, Is.NaN);
            var key = (piece.Channel, piece.Kind);
            if (_open.TryGetValue(key, out (long Begin, long End) open))
            {
                Assert.That(piece.BeginNs, Is.GreaterThanOrEqualTo(open.End), "pieces come in order");
                if (piece.BeginNs == open.End)
                {
                    _open[key] = (open.Begin, piece.EndNs);
                    continue;
                }

                _closed.Add((piece.Channel, piece.Kind, open.Begin, open.End));
            }

            _open[key] = (piece.BeginNs, piece.EndNs);
        }
    }
}
