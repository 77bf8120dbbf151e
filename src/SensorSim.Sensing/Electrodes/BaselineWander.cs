// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Electrodes;

/// <summary>The wander of the ECG's baseline: a <see cref="SmoothNoise"/> with nodes half a second apart, begun with in an empty buffer.</summary>
/// <param name="random">Its own source; draw i is node i.</param>
/// <param name="grid">Sampling instants.</param>
internal sealed class BaselineWander(KeyedRandom random, SampleGrid grid)
{
    // A power of two: products with its inverse are exact quotients.
    private const double NodeSeconds = 0.5;
    private const double PerSecond = 1 / NodeSeconds;
    private const int Lanes = 4;

    private readonly SmoothNodes _nodes = new(new SmoothNoise(random, NodeSeconds, rms: 1));

    /// <summary>Makes samples: overwrites the target.</summary>
    /// <param name="target">Element i gets the value at sample <paramref name="firstIndex"/> + i.</param>
    /// <param name="firstIndex">Index of the first sample.</param>
    /// <param name="rms">Root mean square.</param>
    public void Make(Span<double> target, long firstIndex, double rms)
    {
        if (rms == 0)
        {
            target.Clear();
            return;
        }

        for (int done = 0; done < target.Length;)
        {
            double node = Math.Floor(grid.Seconds(firstIndex + done) * PerSecond);
            double begin = node * NodeSeconds;
            SmoothCubic cubic = _nodes.Cubic((long)node);
            int end = (int)Math.Min(grid.FirstAtOrAfter((node + 1) * NodeSeconds) - firstIndex, target.Length);

            // Four neighbours at a time and the rest one by one: the same operations, so the same bits. The place is a line over the index.
            double atZero = (grid.StartSeconds - begin) * PerSecond;
            double perSample = grid.StepSeconds * PerSecond;

            // Made once: in the loop they would be made each time.
            var c0 = Vector256.Create(cubic.C0);
            var c1 = Vector256.Create(cubic.C1);
            var c2 = Vector256.Create(cubic.C2);
            var c3 = Vector256.Create(cubic.C3);
            var from = Vector256.Create(atZero);
            var step = Vector256.Create(perSample);
            var size = Vector256.Create(rms);
            var on = Vector256.Create((double)Lanes);
            Vector256<double> index = Vector256.Create((double)(firstIndex + done)) + Vector256.Create(0.0, 1, 2, 3);
            ref double t = ref MemoryMarshal.GetReference(target[..end]);
            int whole = done + ((end - done) & -Lanes);
            for (nuint i = (nuint)(uint)done; i < (nuint)(uint)whole; i += Lanes)
            {
                Vector256<double> u = from + (index * step);
                ((c0 + (u * (c1 + (u * (c2 + (u * c3)))))) * size).StoreUnsafe(ref t, i);
                index += on;
            }

            for (done = whole; done < end; done++)
            {
                target[done] = cubic.At(atZero + ((firstIndex + done) * perSample)) * rms;
            }
        }
    }

    /// <summary>An independent copy: what is kept can be drawn again.</summary>
    public BaselineWander Copy() => new(random, grid);
}
