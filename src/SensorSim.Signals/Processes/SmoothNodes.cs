// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Processes;

/// <summary>The nodes of a smooth noise for somebody who reads on: drawn sixteen at a time, and kept while they are near.</summary>
/// <remarks>Nodes are keyed by their numbers: whatever was asked for before, the same numbers come. Not safe for several threads.</remarks>
public sealed class SmoothNodes
{
    private const int Part = 16;
    private readonly SmoothNoise _noise;
    private readonly double[] _nodes = new double[2 * Part];
    private long _first = long.MinValue;
    private long _cubicNode = long.MinValue;
    private SmoothCubic _cubic;

    /// <summary>Creates room for nodes.</summary>
    /// <param name="noise">The noise.</param>
    public SmoothNodes(SmoothNoise noise)
    {
        ArgumentNullException.ThrowIfNull(noise);
        _noise = noise;
    }

    /// <summary>The noise between a node and the next one.</summary>
    /// <param name="node">Number of the node.</param>
    public SmoothCubic Cubic(long node)
    {
        if (node == _cubicNode)
        {
            return _cubic;
        }

        long first = (node - 1) & -Part;
        if (first != _first)
        {
            int kept = first == _first + Part ? Part : 0;
            _nodes.AsSpan(Part, kept).CopyTo(_nodes);
            _noise.FillNodes(_nodes.AsSpan(kept), first + kept);
            _first = first;
        }

        _cubicNode = node;
        _cubic = new SmoothCubic(_nodes.AsSpan((int)(node - 1 - first), 4));
        return _cubic;
    }
}
