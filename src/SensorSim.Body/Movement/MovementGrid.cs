// SPDX-License-Identifier: MIT
using SensorSim.Signals.Processes;

namespace SensorSim.Body.Movement;

/// <summary>Draws the acceleration of a movement on a grid, in blocks of about a second at absolute places.</summary>
/// <remarks>
/// Blocks are drawn when somebody asks for a sample of them, all axes at once, and the latest eight are kept: three axes that read in turns
/// share the work, and no cut of a stream changes a bit. Any place may be asked for. Room for them is made with the first: of the grids that
/// a sensor's channels come with, most give way to one that they share. Not safe for several threads.
/// </remarks>
public sealed class MovementGrid
{
    /// <summary>Rate from which on a grid is dense enough for what filters the movement [Hz]: 100 Hz of the slowest clock there may be, 1000 ppm and as much again.</summary>
    /// <remarks>At 100 Hz sharp a clock that is slow by any ppm would have twice as many samples drawn.</remarks>
    public const double LeastHz = 99.8;

    /// <summary>Number of the row of the movement beside the axes.</summary>
    public const int Beside = 3;

    /// <summary>Latest blocks that are kept, a power of two: those that a stretch of samples may touch, and the one after them.</summary>
    public const int Kept = 8;

    private static readonly Axes[] s_axes = [new(1, 0, 0), new(0, 1, 0), new(0, 0, 1)];
    private readonly MovementModel _model;
    private readonly MovementModel? _beside;
    private readonly Axes _direction;
    private readonly bool _hasGravity;
    private Room? _room;

    /// <summary>Creates a movement on a grid.</summary>
    /// <param name="model">The movement.</param>
    /// <param name="grid">Sampling instants.</param>
    /// <param name="hasGravity">Whether gravity of the posture is in; the part of gravity that a gesture turns always is.</param>
    public MovementGrid(MovementModel model, SampleGrid grid, bool hasGravity = true)
        : this(model, grid, hasGravity, null, default)
    {
    }

    /// <summary>Creates a movement on a grid without gravity, and beside it another one along one direction: less work than a grid of its own.</summary>
    /// <param name="model">The movement.</param>
    /// <param name="grid">Sampling instants.</param>
    /// <param name="beside">The other movement: of the same hand's knobs, tremor and vehicle.</param>
    /// <param name="direction">Direction of any length: row <see cref="Beside"/> is its product with the other acceleration.</param>
    /// <remarks>
    /// A vehicle's vibration is alike and independent on the three axes: along a direction it is one noise of that length, and that of the
    /// other's x stands for it.
    /// </remarks>
    public MovementGrid(MovementModel model, SampleGrid grid, MovementModel beside, Axes direction)
        : this(model, grid, false, beside, direction)
    {
    }

    private MovementGrid(MovementModel model, SampleGrid grid, bool hasGravity, MovementModel? beside, Axes direction)
    {
        ArgumentNullException.ThrowIfNull(model);
        _model = model;
        _hasGravity = hasGravity;
        _beside = beside;
        _direction = direction;
        Grid = grid;
        BlockLength = MovementBlock.LengthOn(grid);
    }

    /// <summary>Sampling instants.</summary>
    public SampleGrid Grid { get; }

    /// <summary>Samples in a block; block b begins at sample b × this.</summary>
    public int BlockLength { get; }

    /// <summary>Adds the acceleration along all axes [g].</summary>
    /// <param name="x">Element i gets x at sample <paramref name="firstIndex"/> + i.</param>
    /// <param name="y">Likewise y; as long as <paramref name="x"/>.</param>
    /// <param name="z">Likewise z.</param>
    /// <param name="firstIndex">Index of the first sample.</param>
    public void Add(Span<double> x, Span<double> y, Span<double> z, long firstIndex)
    {
        Add(0, x, firstIndex);
        Add(1, y, firstIndex);
        Add(2, z, firstIndex);
    }

    /// <summary>Adds the acceleration along one axis [g].</summary>
    /// <param name="axis">0 for x, 1 for y, 2 for z.</param>
    /// <param name="buffer">Element i gets the value at sample <paramref name="firstIndex"/> + i.</param>
    /// <param name="firstIndex">Index of the first sample.</param>
    public void Add(int axis, Span<double> buffer, long firstIndex)
    {
        int done = 0;
        while (done < buffer.Length)
        {
            long index = firstIndex + done;
            long block = BlockOf(index);
            int from = (int)(index - (block * BlockLength));
            ReadOnlySpan<double> source = Block(block, axis)[from..];
            source = source[..Math.Min(source.Length, buffer.Length - done)];
            Span<double> target = buffer.Slice(done, source.Length);
            for (int i = 0; i < target.Length; i++)
            {
                target[i] += source[i];
            }

            done += source.Length;
        }
    }

    /// <summary>Acceleration of a whole block along an axis [g]; holds until the eighth block after it is asked for.</summary>
    /// <param name="block">Number of the block; negative ones lie before sample 0.</param>
    /// <param name="axis">0 for x, 1 for y, 2 for z, or <see cref="Beside"/> where there is one.</param>
    public ReadOnlySpan<double> Block(long block, int axis)
    {
        Room room = _room ??= new Room(this);
        MovementBlock place = room.Blocks[block & (Kept - 1)];
        if (place.Number != block)
        {
            Draw(place, block, room.Nodes);
        }

        return place.AllRows[axis].AsSpan(0, place.Count);
    }

    /// <summary>An independent drawer of the same movement.</summary>
    public MovementGrid Copy() => new(_model, Grid, _hasGravity, _beside, _direction);

    private long BlockOf(long index) => index >= 0 ? index / BlockLength : -((BlockLength - 1 - index) / BlockLength);

    private void Draw(MovementBlock block, long number, VehicleNodes? nodes)
    {
        if (_hasGravity)
        {
            _model.Posture.Begin(block, number);
        }
        else
        {
            block.MoveTo(number);
        }

        if (!_model.IsMoving)
        {
            return;
        }

        AddEvents(_model, block);
        if (block.Beside is not null)
        {
            AddEvents(_beside!, block.Beside);
        }

        _model.Tremor.Add(block);
        if (nodes is not null)
        {
            _model.Vehicle.Add(block, nodes);
        }
    }

    // What every movement has at times of its own.
    private static void AddEvents(MovementModel model, MovementBlock block)
    {
        model.Gait.Add(block);
        model.Gestures.Add(block, model.Posture);
        model.Typing.Add(block, block.Memory.Typing, block.Memory.TypingPace);
        model.Taps.Add(block, block.Memory.Taps, block.Memory.TapPace);
    }

    // The latest blocks, and what they keep for each other.
    private sealed class Room
    {
        public Room(MovementGrid grid)
        {
            MovementModel model = grid._model;
            Axes direction = grid._direction;
            var memory = new MovementMemory(model, s_axes, grid.Grid);
            MovementMemory? beside = grid._beside is null ? null : new MovementMemory(grid._beside, [direction], grid.Grid);
            Blocks = new MovementBlock[Kept];
            for (int i = 0; i < Kept; i++)
            {
                Blocks[i] = new MovementBlock(grid.Grid, s_axes, memory, beside is null ? null : new MovementBlock(grid.Grid, [direction], beside));
            }

            Nodes = model.Vehicle.IsOff ? null : new VehicleNodes(model.Vehicle, grid.Grid, grid._beside?.Vehicle, direction.Magnitude);
        }

        public MovementBlock[] Blocks { get; }

        public VehicleNodes? Nodes { get; }
    }
}
