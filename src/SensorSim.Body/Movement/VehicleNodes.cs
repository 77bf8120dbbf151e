// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
using SensorSim.Signals.Processes;

namespace SensorSim.Body.Movement;

/// <summary>The nodes of a vehicle's vibration about one block after the other of a grid: x, y and z in the lanes of vectors.</summary>
/// <remarks>Draws that the block before had are kept; every number is the same whichever block came before.</remarks>
internal sealed class VehicleNodes
{
    private readonly Vector256<double>[] _draws;
    private readonly Vector256<double>[] _nodes;
    private readonly double[] _new;
    private long _firstDraw = long.MinValue;

    /// <summary>Creates room for the blocks of a grid.</summary>
    public VehicleNodes(SampleGrid grid)
    {
        int most = (int)Math.Ceiling(MovementBlock.LengthOn(grid) * grid.StepSeconds * BandNoise.NodesPerSecond) + 6;
        _nodes = new Vector256<double>[most];
        _draws = new Vector256<double>[most + (2 * BandNoise.ReachNodes)];
        _new = new double[3 * _draws.Length];
    }

    /// <summary>Node of the first element of <see cref="Of"/>.</summary>
    public long First { get; private set; }

    /// <summary>The nodes that the samples of a block lie between.</summary>
    /// <param name="block">The block.</param>
    /// <param name="axes">Noise along x, y and z.</param>
    public ReadOnlySpan<Vector256<double>> Of(MovementBlock block, BandNoise[] axes)
    {
        First = (long)Math.Floor(block.BeginSeconds * BandNoise.NodesPerSecond) - 1;
        int count = (int)((long)Math.Floor(block.EndSeconds * BandNoise.NodesPerSecond) + 3 - First);
        Draw(First - BandNoise.ReachNodes, axes);
        Span<Vector256<double>> nodes = _nodes.AsSpan(0, count);
        BandNoise.TakeMeans(_draws.AsSpan(0, count + (2 * BandNoise.ReachNodes)), nodes);
        return nodes;
    }

    private void Draw(long first, BandNoise[] axes)
    {
        long moved = first - _firstDraw;
        int kept = _firstDraw != long.MinValue && moved >= 0 && moved < _draws.Length ? _draws.Length - (int)moved : 0;
        _draws.AsSpan(_draws.Length - kept, kept).CopyTo(_draws);
        int count = _draws.Length - kept;
        Span<double> x = _new.AsSpan(0, count);
        Span<double> y = _new.AsSpan(count, count);
        Span<double> z = _new.AsSpan(2 * count, count);
        axes[0].Draw(x, first + kept);
        axes[1].Draw(y, first + kept);
        axes[2].Draw(z, first + kept);
        for (int i = 0; i < count; i++)
        {
            _draws[kept + i] = Vector256.Create(x[i], y[i], z[i], 0);
        }

        _firstDraw = first;
    }
}
