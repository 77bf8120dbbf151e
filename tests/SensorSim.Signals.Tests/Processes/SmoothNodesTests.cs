// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Signals.Tests.Processes;

/// <summary>A smooth noise read node by node is the one that is drawn on samples, whatever was asked for before.</summary>
public sealed class SmoothNodesTests
{
    private const double NodeSeconds = 0.5;

    [Test]
    public void Cubic_AnyNodeInAnyOrder_IsTheNoiseThere()
    {
        var noise = new SmoothNoise(new KeyedRandom(5, "test.smooth_nodes"), NodeSeconds, 2);
        var nodes = new SmoothNodes(noise);
        foreach (long node in new long[] { 0, 1, 2, 15, 16, 17, 31, 32, 33, 100, 99, -1, -2, -17, -16, 3 })
        {
            foreach (double u in new[] { 0, 0.25, 0.75 })
            {
                double drawn = 0;
                noise.Add(new Span<double>(ref drawn), new SampleGrid((node + u) * NodeSeconds, 1), 0);
                Assert.That(nodes.Cubic(node).At(u), Is.EqualTo(drawn), $"node {node}, place {u}");
                Assert.That(nodes.Cubic(node).At(Vector256.Create(u)).GetElement(2), Is.EqualTo(drawn), $"node {node}, place {u}, in lanes");
            }
        }
    }
}
