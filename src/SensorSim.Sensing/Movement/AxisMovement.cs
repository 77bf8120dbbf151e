// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SensorSim.Body.Movement;
using SensorSim.Sensing.Devices;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Movement;

/// <summary>Acceleration of the body along the three axes of the sensor, behind their low-pass if they have one: made once for all three.</summary>
/// <remarks>
/// An axis stands in each of the first three lanes of a sample, the first one once more in the fourth. Samples are made forward from sample 0
/// on, as many at a time as a block of the movement holds, so no cut changes a bit. The latest four blocks are kept: axes that read in turns share the work.
/// </remarks>
internal sealed class AxisMovement
{
    private const int Lanes = 4;

    // Those that a stretch of samples may touch.
    private const int Kept = MovementGrid.Kept;

    private readonly MovementModel _model;
    private readonly SampleGrid _grid;
    private readonly Vector256<double> _ofX;
    private readonly Vector256<double> _ofY;
    private readonly Vector256<double> _ofZ;
    private readonly AxisLowPass? _lowPass;
    private readonly int _perSample;
    private readonly Vector256<double>[][] _blocks = new Vector256<double>[Kept][];
    private MovementGrid _movement;
    private long _nextBlock;

    /// <summary>Creates the movement of a sensor's axes.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="model">Movement of the body.</param>
    public AxisMovement(KeyValues values, MovementModel model)
    {
        _model = model;
        _grid = Device.Of(values, ChannelName.AccelX).Grid(values[AccelerometerKeys.RateHz], 0);

        // As dense as the tissue under a sensor on the same instants needs it, so that both draw the movement once.
        // Powers of two: every sample of the axis is one of the drawn, to the bit.
        _perSample = 1;
        while (_perSample / _grid.StepSeconds < MovementGrid.LeastHz)
        {
            _perSample *= 2;
        }

        _movement = new MovementGrid(model, new SampleGrid(_grid.StartSeconds, _grid.StepSeconds / _perSample), hasGravity: false);
        Axes x = AxisTurn.Direction(values, 0);
        Axes y = AxisTurn.Direction(values, 1);
        Axes z = AxisTurn.Direction(values, 2);
        _ofX = Vector256.Create(x.X, y.X, z.X, x.X);
        _ofY = Vector256.Create(x.Y, y.Y, z.Y, x.Y);
        _ofZ = Vector256.Create(x.Z, y.Z, z.Z, x.Z);
        double bandwidth = values[AccelerometerKeys.BandwidthHz];
        _lowPass = bandwidth > 0 ? new AxisLowPass(bandwidth, _grid) : null;
        MakeRoom();
    }

    private AxisMovement(AxisMovement other)
    {
        _model = other._model;
        _grid = other._grid;
        _perSample = other._perSample;
        _movement = other._movement.Copy();
        _ofX = other._ofX;
        _ofY = other._ofY;
        _ofZ = other._ofZ;
        _lowPass = other._lowPass?.Copy();
        _nextBlock = other._nextBlock;
        MakeRoom();
        for (int i = 0; i < Kept; i++)
        {
            other._blocks[i].CopyTo(_blocks[i], 0);
        }
    }

    /// <summary>Draws the body's movement together with somebody on the same instants.</summary>
    /// <param name="movement">The movement of the same body as the other one draws it, without the posture's gravity.</param>
    public void Join(MovementGrid movement)
    {
        if (movement.Grid == _movement.Grid)
        {
            _movement = movement;
        }
    }

    /// <summary>Acceleration along an axis of the sensor [g].</summary>
    /// <param name="target">Element i receives that of sample <paramref name="firstIndex"/> + i.</param>
    /// <param name="firstIndex">Index of the first sample; forward, or at most a stretch back.</param>
    /// <param name="axis">0 for x, 1 for y, 2 for z.</param>
    public void Read(Span<double> target, long firstIndex, int axis)
    {
        for (int done = 0; done < target.Length;)
        {
            long block = (firstIndex + done) * _perSample / _movement.BlockLength;
            while (_nextBlock <= block)
            {
                MakeNext();
            }

            long first = First(block);
            int place = (int)(firstIndex + done - first);
            Span<double> part = target.Slice(done, (int)Math.Min(target.Length - done, First(block + 1) - first - place));
            ReadOnlySpan<double> lanes = MemoryMarshal.Cast<Vector256<double>, double>(_blocks[block & (Kept - 1)].AsSpan(place, part.Length));
            ref double from = ref Unsafe.Add(ref MemoryMarshal.GetReference(lanes), axis);
            ref double to = ref MemoryMarshal.GetReference(part);
            int i = 0;
            for (; i + 4 <= part.Length; i += 4)
            {
                Vector256.Create(from, Unsafe.Add(ref from, Lanes), Unsafe.Add(ref from, 2 * Lanes), Unsafe.Add(ref from, 3 * Lanes)).StoreUnsafe(ref to, (nuint)(uint)i);
                from = ref Unsafe.Add(ref from, 4 * Lanes);
            }

            for (; i < part.Length; i++)
            {
                part[i] = from;
                from = ref Unsafe.Add(ref from, Lanes);
            }

            done += part.Length;
        }
    }

    /// <summary>An independent copy with the same state.</summary>
    public AxisMovement Copy() => new(this);

    // The first sample that lies in a block of the movement.
    private long First(long block) => ((block * _movement.BlockLength) + _perSample - 1) / _perSample;

    private void MakeRoom()
    {
        for (int i = 0; i < Kept; i++)
        {
            _blocks[i] = new Vector256<double>[(_movement.BlockLength / _perSample) + 1];
        }
    }

    private void MakeNext()
    {
        long block = _nextBlock++;
        long first = First(block);
        Span<Vector256<double>> samples = _blocks[block & (Kept - 1)].AsSpan(0, (int)(First(block + 1) - first));
        Along(samples, first);
        if (_lowPass is not null)
        {
            Vector256<double> next = default;
            Along(new Span<Vector256<double>>(ref next), first + samples.Length);
            _lowPass.Apply(samples, next);
        }
    }

    // Acceleration of the body along the axes, at samples that lie in one block of the movement.
    private void Along(Span<Vector256<double>> target, long firstIndex)
    {
        bool isSteady = _model.IsGravitySteady(_grid.Seconds(firstIndex), _grid.Seconds(firstIndex + target.Length - 1), out Axes gravity);
        Vector256<double> still = isSteady ? Turned(gravity.X, gravity.Y, gravity.Z) : Vector256<double>.Zero;
        if (_model.IsMoving)
        {
            ReadMovement(target, firstIndex, still);
        }
        else
        {
            target.Fill(still);
        }

        for (int i = 0; i < target.Length && !isSteady; i++)
        {
            Axes now = _model.Gravity(_grid.Seconds(firstIndex + i));
            target[i] += Turned(now.X, now.Y, now.Z);
        }
    }

    private void ReadMovement(Span<Vector256<double>> target, long firstIndex, in Vector256<double> still)
    {
        int length = _movement.BlockLength;
        long index = firstIndex * _perSample;
        long block = index / length;
        int place = (int)(index - (block * length));
        int reach = place + ((target.Length - 1) * _perSample) + 1;
        ReadOnlySpan<double> x = _movement.Block(block, 0)[place..reach];
        ReadOnlySpan<double> y = _movement.Block(block, 1)[place..reach];
        ReadOnlySpan<double> z = _movement.Block(block, 2)[place..reach];
        Turn(target, x, y, z, still);
    }

    // A method of its own: beside calls the compiler would keep in memory what belongs in registers.
    private void Turn(Span<Vector256<double>> target, ReadOnlySpan<double> x, ReadOnlySpan<double> y, ReadOnlySpan<double> z, in Vector256<double> still)
    {
        ref double xs = ref MemoryMarshal.GetReference(x);
        ref double ys = ref MemoryMarshal.GetReference(y);
        ref double zs = ref MemoryMarshal.GetReference(z);
        Vector256<double> ofX = _ofX;
        Vector256<double> ofY = _ofY;
        Vector256<double> ofZ = _ofZ;
        Vector256<double> level = still;
        nuint step = (nuint)(uint)_perSample;
        nuint at = 0;
        for (int i = 0; i < target.Length; i++)
        {
            Vector256<double> sum = (ofX * Vector256.Create(Unsafe.Add(ref xs, at))) + (ofY * Vector256.Create(Unsafe.Add(ref ys, at)))
                + (ofZ * Vector256.Create(Unsafe.Add(ref zs, at)));
            target[i] = sum + level;
            at += step;
        }
    }

    private Vector256<double> Turned(double x, double y, double z) => (_ofX * x) + (_ofY * y) + (_ofZ * z);
}
