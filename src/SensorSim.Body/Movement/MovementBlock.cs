// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using SensorSim.Signals.Processes;

namespace SensorSim.Body.Movement;

/// <summary>A stretch of about a second of a grid that begins at an absolute sample, with a row for each direction and working space.</summary>
/// <remarks>
/// Blocks stand at absolute places, so what is drawn into them does not depend on how a stream is cut. Arrays reach far enough for four
/// samples to begin at any of the block's; what stands behind the last one is not used.
/// </remarks>
internal sealed class MovementBlock
{
    private const int Most = 4096;
    private readonly SampleGrid _grid;
    private long _second = long.MinValue;
    private long _secondSample;

    /// <summary>Creates a block.</summary>
    /// <param name="grid">Sampling instants.</param>
    /// <param name="directions">Directions to draw along, of any length: the acceleration times it.</param>
    /// <param name="memory">What the blocks of a grid keep for each other.</param>
    /// <param name="beside">The same stretch of a movement beside this one, if there is one.</param>
    public MovementBlock(SampleGrid grid, Axes[] directions, MovementMemory memory, MovementBlock? beside = null)
    {
        _grid = grid;
        Count = LengthOn(grid);
        int capacity = Count + 3;
        Directions = directions;
        Rows = [.. directions.Select(_ => new double[capacity])];
        Memory = memory;
        Beside = beside;
        AllRows = beside is null ? Rows : [.. Rows, beside.Rows[0]];
    }

    /// <summary>Samples of the block.</summary>
    public int Count { get; }

    /// <summary>Number of the block.</summary>
    public long Number { get; private set; } = long.MinValue;

    /// <summary>Index of the first sample.</summary>
    public long First { get; private set; }

    /// <summary>Sampling instants.</summary>
    public SampleGrid Grid => _grid;

    /// <summary>Directions that are drawn along: the three axes, or a single one.</summary>
    public Axes[] Directions { get; }

    /// <summary>Acceleration along each direction [g].</summary>
    public double[][] Rows { get; }

    /// <summary>The rows, and behind them that of the block beside this one.</summary>
    public double[][] AllRows { get; }

    /// <summary>Working space: a phase for each sample [turns].</summary>
    public double[] Turns => Memory.Turns;

    /// <summary>Working space: a gain for each sample.</summary>
    public double[] Gains => Memory.Gains;

    /// <summary>Working space.</summary>
    public double[] Spare => Memory.Spare;

    /// <summary>What is kept from block to block.</summary>
    public MovementMemory Memory { get; }

    /// <summary>The same stretch of a movement beside this one.</summary>
    public MovementBlock? Beside { get; }

    /// <summary>Instant of the first sample [s].</summary>
    public double BeginSeconds { get; private set; }

    /// <summary>Instant of the last sample [s].</summary>
    public double EndSeconds { get; private set; }

    /// <summary>Samples in a block of a grid: a second's, but at least 4 and at most 4096.</summary>
    public static int LengthOn(SampleGrid grid) => (int)Math.Max(4, Math.Min(Most, Math.Round(1 / grid.StepSeconds)));

    /// <summary>Instant of a sample of the block [s].</summary>
    public double Seconds(int index) => _grid.Seconds(First + index);

    /// <summary>Instants of four samples [s]: the same operations as one by one, so the same bits.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Vector256<double> FourSeconds(int index) => Vector256.Create(_grid.StartSeconds)
        + ((Vector256.Create((double)(First + index)) + Vector256.Create(0.0, 1, 2, 3)) * _grid.StepSeconds);

    /// <summary>First sample of the block at or after a whole second, all of them if it ends before.</summary>
    /// <param name="second">The second, not before the block; the one asked for last is remembered.</param>
    public int FirstOf(long second)
    {
        if (EndSeconds < second)
        {
            return Count;
        }

        if (second != _second)
        {
            _second = second;
            _secondSample = _grid.FirstAtOrAfter(second);
        }

        return (int)(_secondSample - First);
    }

    /// <summary>Samples from one time to another, to a sample more on either side, begun at a multiple of four.</summary>
    /// <param name="beginSeconds">Begin [s].</param>
    /// <param name="endSeconds">End [s].</param>
    /// <param name="from">Receives the first one, at least 0.</param>
    /// <param name="to">Receives the one after the last, at most all.</param>
    public void Between(double beginSeconds, double endSeconds, out int from, out int to)
    {
        double begin = Math.Floor((beginSeconds - BeginSeconds) / _grid.StepSeconds);
        double end = Math.Ceiling((endSeconds - BeginSeconds) / _grid.StepSeconds) + 1;
        from = (int)Math.Max(0, Math.Min(Count, begin)) & ~3;
        to = (int)Math.Max(0, Math.Min(Count, end));
    }

    /// <summary>Goes to another block, without any acceleration.</summary>
    public void MoveTo(long block)
    {
        Number = block;
        First = block * Count;
        BeginSeconds = _grid.Seconds(First);
        EndSeconds = _grid.Seconds(First + Count - 1);
        foreach (double[] row in Rows)
        {
            Array.Clear(row);
        }

        Beside?.MoveTo(block);
    }
}
