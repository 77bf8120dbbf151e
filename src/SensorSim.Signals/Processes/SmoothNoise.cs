// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SensorSim.Signals.Randomness;

namespace SensorSim.Signals.Processes;

/// <summary>A slow random fluctuation, smooth to the second derivative: keyed normal draws at nodes, joined by cubic B-splines.</summary>
/// <remarks>
/// A function of time, not of samples: the same whatever the sampling rate. Power spectral density (two-sided) is proportional to
/// sinc(π f Δ)^8 with Δ the time between nodes: −3 dB at 0.23/Δ, zero at 1/Δ. The variance, averaged over the place between
/// nodes, is 151/315 of a draw's (integral of the squared cubic B-spline; Unser, IEEE Signal Processing Magazine 16(6):22, 1999).
/// </remarks>
public sealed class SmoothNoise
{
    private const int MostDraws = 16;
    private const double MeanVariance = 151.0 / 315.0;
    private readonly KeyedRandom _random;
    private readonly double _nodeSeconds;
    private readonly double _scale;

    /// <summary>Creates a fluctuation.</summary>
    /// <param name="random">Its own source; draw i is node i.</param>
    /// <param name="nodeSeconds">Time between nodes Δ [s], above 0.</param>
    /// <param name="rms">Root mean square [its unit], at least 0.</param>
    public SmoothNoise(KeyedRandom random, double nodeSeconds, double rms)
    {
        _random = random;
        _nodeSeconds = nodeSeconds;
        _scale = rms / Math.Sqrt(MeanVariance);
    }

    /// <summary>Nodes as the splines join them.</summary>
    /// <param name="nodes">Receives them [the fluctuation's unit].</param>
    /// <param name="firstNode">Number of the first one; node i stands at i times the time between nodes.</param>
    public void FillNodes(Span<double> nodes, long firstNode) => _random.FillNormals(nodes, firstNode, _scale);

    /// <summary>Adds the fluctuation to samples on a grid.</summary>
    /// <param name="buffer">Element i gets the value at sample <paramref name="firstIndex"/> + i.</param>
    /// <param name="grid">Sampling instants.</param>
    /// <param name="firstIndex">Index of the first sample.</param>
    public void Add(Span<double> buffer, in SampleGrid grid, long firstIndex)
    {
        if (_scale == 0 || buffer.IsEmpty)
        {
            return;
        }

        // Nodes are drawn many at a time, as many as the stretch needs.
        Span<double> draws = stackalloc double[MostDraws];
        long firstDraw = 0;
        long endDraw = long.MinValue;
        long lastNode = (long)Math.Floor(grid.Seconds(firstIndex + buffer.Length - 1) / _nodeSeconds) + 1;
        int done = 0;
        var start = Vector256.Create(grid.StartSeconds);
        var step = Vector256.Create(grid.StepSeconds);
        var between = Vector256.Create(_nodeSeconds);
        var toNext = Vector256.Create(4.0);
        while (done < buffer.Length)
        {
            double now = grid.Seconds(firstIndex + done);
            long node = (long)Math.Floor(now / _nodeSeconds);

            // The division rounds: a sample on a node may seem to lie just before it, and the stretch up to the node would be empty.
            node += now >= (node + 1) * _nodeSeconds ? 1 : 0;
            long end = Math.Min(grid.FirstAtOrAfter((node + 1) * _nodeSeconds) - firstIndex, buffer.Length);
            if (node + 3 > endDraw)
            {
                firstDraw = node - 1;
                endDraw = Math.Max(node + 3, Math.Min(lastNode + 3, firstDraw + MostDraws));
                FillNodes(draws[..(int)(endDraw - firstDraw)], firstDraw);
            }

            var cubic = new SmoothCubic(draws.Slice((int)(node - 1 - firstDraw), 4));
            double begin = node * _nodeSeconds;

            // Four neighbours at a time and the rest one by one: the same operations, so the same bits.
            var from = Vector256.Create(begin);
            var c0 = Vector256.Create(cubic.C0);
            var c1 = Vector256.Create(cubic.C1);
            var c2 = Vector256.Create(cubic.C2);
            var c3 = Vector256.Create(cubic.C3);
            Vector256<double> index = Vector256.Create((double)(firstIndex + done)) + Vector256.Create(0.0, 1, 2, 3);
            foreach (ref Vector256<double> four in MemoryMarshal.Cast<double, Vector256<double>>(buffer[done..(int)end]))
            {
                Vector256<double> seconds = start + (index * step);
                Vector256<double> u = (seconds - from) / between;
                four += c0 + (u * (c1 + (u * (c2 + (u * c3)))));
                index += toNext;
                done += 4;
            }

            for (; done < end; done++)
            {
                buffer[done] += cubic.At((grid.Seconds(firstIndex + done) - begin) / _nodeSeconds);
            }
        }
    }
}
