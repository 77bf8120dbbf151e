// SPDX-License-Identifier: MIT
using SensorSim.Body.Movement;
using SensorSim.Signals.Processes;

namespace SensorSim.Sensing.Optics;

/// <summary>Movement artefact in the absorbance: acceleration through tissue that gives way slowly.</summary>
/// <remarks>
/// <para>The tissue is a first-order low-pass at 2 Hz on a weighted sum of the axes without the posture's gravity (choices of this
/// project). The filter is the exact response to a cubic through four neighbouring samples, at 100 Hz or more: off by less than 1e-3 of a
/// line up to 8 Hz.</para>
/// <para>The scale is such that the reference gait of the movement, steady, has an rms of 1: from the lines' closed form, never from what
/// was drawn. Its state runs through from two seconds before the first sample asked for.</para>
/// </remarks>
internal sealed class TissueArtefact
{
    private const double CornerHz = 2;
    private const double LeastHz = 100;
    private const double LargestSharedOffsetSeconds = 1e-3;
    private const int PreRollBlocks = 2;
    private const int Lines = 60;
    private const double Negligible = 1e-30;
    private const double LeastPower = 1e-20;

    private readonly MovementModel _model;
    private readonly SampleGrid _slot;
    private readonly Axes _shares;
    private readonly MovementGrid _movement;
    private readonly int _perSample;
    private readonly double _keep;
    private readonly double _before;
    private readonly double _from;
    private readonly double _to;
    private readonly double _after;
    private readonly double[] _drive;
    private readonly double[] _even;
    private readonly double[] _odd;
    private long _evenBlock = long.MinValue;
    private long _oddBlock = long.MinValue;
    private long _nextBlock = long.MinValue;
    private double _state;

    /// <summary>Creates the artefact of a slot.</summary>
    /// <param name="movement">Movement of the body.</param>
    /// <param name="slot">Sampling instants.</param>
    /// <param name="shares">Shares of the axes; where they take nothing of the gait there is no artefact.</param>
    public TissueArtefact(MovementModel movement, SampleGrid slot, Axes shares)
    {
        _model = movement;
        _shares = shares;
        _slot = slot;
        _perSample = (int)Math.Max(1, Math.Ceiling((LeastHz * slot.StepSeconds) - 1e-9));
        var grid = new SampleGrid(slot.StartSeconds, slot.StepSeconds / _perSample);
        _movement = new MovementGrid(movement, grid, hasGravity: false);

        var weights = new CubicLowPass(CornerHz, grid.StepSeconds);
        _keep = weights.Keep;
        double power = ReferencePower(movement, shares);
        double gain = power < LeastPower ? 0 : 1 / Math.Sqrt(power);
        _before = gain * weights.Before;
        _from = gain * weights.From;
        _to = gain * weights.To;
        _after = gain * weights.After;

        // Two samples before the block and one after it.
        _drive = new double[_movement.BlockLength + 3];
        _even = new double[_movement.BlockLength];
        _odd = new double[_movement.BlockLength];
    }

    /// <summary>The movement as it is drawn for the tissue, without the posture's gravity.</summary>
    public MovementGrid Movement => _movement;

    /// <summary>Adds the artefact [absorbance].</summary>
    /// <param name="buffer">Element i gets the value at sample <paramref name="firstIndex"/> + i.</param>
    /// <param name="firstIndex">Index of the first sample; forward only, at most a block back.</param>
    /// <param name="rms">Root mean square in the reference gait [absorbance].</param>
    public void Add(Span<double> buffer, long firstIndex, double rms)
    {
        // Also with an rms of 0: slots that share this must find the same state, whichever of them asks first for more.
        if (!_model.IsMoving)
        {
            return;
        }

        int length = _movement.BlockLength;
        for (int done = 0; done < buffer.Length;)
        {
            long index = (firstIndex + done) * _perSample;
            long block = index / length;
            double[] source = Block(block);
            for (int place = (int)(index - (block * length)); place < length && done < buffer.Length; place += _perSample)
            {
                buffer[done++] += rms * source[place];
            }
        }
    }

    /// <summary>Whether another slot's artefact may stand for this one: the same movement at most a millisecond apart.</summary>
    public bool IsAlike(TissueArtefact other) => ReferenceEquals(_model, other._model)
        && _slot.StepSeconds == other._slot.StepSeconds
        && Math.Abs(_slot.StartSeconds - other._slot.StartSeconds) <= LargestSharedOffsetSeconds;

    /// <summary>An independent copy with the same state.</summary>
    public TissueArtefact Copy()
    {
        var copy = new TissueArtefact(_model, _slot, _shares)
        {
            _evenBlock = _evenBlock,
            _oddBlock = _oddBlock,
            _nextBlock = _nextBlock,
            _state = _state,
        };
        _even.CopyTo(copy._even, 0);
        _odd.CopyTo(copy._odd, 0);
        return copy;
    }

    // Power of the reference gait behind the tissue: lines at multiples of the stride, each through 1 / (1 + j f / corner).
    private static double ReferencePower(MovementModel movement, Axes shares)
    {
        double power = 0;
        for (int multiple = 1; multiple <= Lines; multiple++)
        {
            movement.ReferenceLine(0, multiple, out double forwardSine, out double forwardCosine);
            movement.ReferenceLine(1, multiple, out double sidewaysSine, out double sidewaysCosine);
            movement.ReferenceLine(2, multiple, out double verticalSine, out double verticalCosine);
            double s = Driven(shares, forwardSine, sidewaysSine, verticalSine);
            double c = Driven(shares, forwardCosine, sidewaysCosine, verticalCosine);
            double r = multiple * 0.5 * movement.ReferenceCadenceHz / CornerHz;
            power += 0.5 * ((s * s) + (c * c)) / (1 + (r * r));
        }

        return power * movement.ReferencePowerGain;
    }

    private static double Driven(in Axes shares, double x, double y, double z) => ((shares.X * x) + (shares.Z * z)) + (shares.Y * y);

    private double[] Block(long block)
    {
        ref readonly long held = ref (block & 1) == 0 ? ref _evenBlock : ref _oddBlock;
        if (held != block)
        {
            if (_nextBlock != block)
            {
                _state = 0;
                _nextBlock = block - PreRollBlocks;
            }

            while (_nextBlock <= block)
            {
                DrawNext();
            }
        }

        return (block & 1) == 0 ? _even : _odd;
    }

    private void DrawNext()
    {
        long block = _nextBlock++;
        bool isEven = (block & 1) == 0;
        double[] target = isEven ? _even : _odd;
        int length = target.Length;

        // The samples around the block from its neighbours, the block itself last: its arrays must not be drawn over.
        Span<double> drive = _drive;
        Axes shares = _shares;
        ReadOnlySpan<double> x = _movement.Block(block - 1, 0);
        ReadOnlySpan<double> y = _movement.Block(block - 1, 1);
        ReadOnlySpan<double> z = _movement.Block(block - 1, 2);
        drive[0] = Driven(shares, x[length - 2], y[length - 2], z[length - 2]);
        drive[1] = Driven(shares, x[length - 1], y[length - 1], z[length - 1]);
        x = _movement.Block(block, 0);
        y = _movement.Block(block, 1)[..x.Length];
        z = _movement.Block(block, 2)[..x.Length];
        for (int i = 0; i < x.Length; i++)
        {
            drive[i + 2] = Driven(shares, x[i], y[i], z[i]);
        }

        x = _movement.Block(block + 1, 0);
        y = _movement.Block(block + 1, 1);
        z = _movement.Block(block + 1, 2);
        drive[length + 2] = Driven(shares, x[0], y[0], z[0]);

        double state = _state;
        for (int i = 0; i < length; i++)
        {
            double driven = ((_before * drive[i]) + (_from * drive[i + 1])) + ((_to * drive[i + 2]) + (_after * drive[i + 3]));
            state = (_keep * state) + driven;
            target[i] = state;
        }

        // Before it goes denormal: within a second it shrinks by five orders at most.
        _state = Math.Abs(state) < Negligible ? 0 : state;
        if (isEven)
        {
            _evenBlock = block;
        }
        else
        {
            _oddBlock = block;
        }
    }
}
