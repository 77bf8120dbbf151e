// SPDX-License-Identifier: MIT
using SensorSim.Detection.Movement;

namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>Acceleration without gravity through four Laguerre functions for each axis, in doubles, from the equations of docs/detection-movement.md.</summary>
internal sealed class MovementReferenceTwin
{
    private const int Axes = MovementReference.Axes;
    private const int PerAxis = MovementReference.Functions;
    private readonly TwinWords _words;
    private readonly double[] _gravity = new double[Axes];
    private readonly double[] _sums = new double[Axes];
    private readonly double[] _meanPowers = new double[Axes];
    private readonly int _decimation;
    private readonly double _scale;
    private readonly double _pole;
    private readonly double _levelPart;
    private readonly bool _isEachForLearning;
    private int _phase;
    private double _meanSquare;

    /// <summary>As the stage is started; the words hold the functions, which span ±64 g.</summary>
    public MovementReferenceTwin(int rateHz, int codesPerG, in TwinWords words = default)
    {
        _words = words;
        _decimation = rateHz < 100 ? 1 : rateHz / 50;
        _scale = 16384.0 / (codesPerG * _decimation);
        int grid = MovementReference.GridRateHz(rateHz);
        _isEachForLearning = grid < 38;
        _pole = _isEachForLearning ? 0.5 : 0.75;
        _levelPart = Math.ScaleB(1, -MovementReference.LevelShift(grid));
    }

    public int Steps { get; private set; }

    public bool IsStill { get; private set; } = true;

    public bool IsForLearning => _isEachForLearning || Steps % 2 == 0;

    /// <summary>Element 4 a + i is function i of axis a [1/16384 g].</summary>
    public double[] Functions { get; } = new double[Axes * PerAxis];

    /// <summary>b with 2^(b − 1) ≤ power of an axis &lt; 2^b.</summary>
    public int[] PowerBits { get; } = new int[Axes];

    public void Next(double x, double y, double z)
    {
        _sums[0] += x;
        _sums[1] += y;
        _sums[2] += z;
        if (++_phase < _decimation)
        {
            return;
        }

        _phase = 0;
        double square = 0;
        for (int axis = 0; axis < Axes; axis++)
        {
            double value = _sums[axis] * _scale;
            _sums[axis] = 0;
            _gravity[axis] = Steps == 0 ? value : _gravity[axis];
            double high = value - _gravity[axis];
            _gravity[axis] += high * _levelPart;
            Advance(axis * PerAxis, high);
            square += high * high / 256;
        }

        Steps++;
        if (IsForLearning)
        {
            FindPowers();
        }

        // In 1/1024 g, as the bounds take the mg.
        _meanSquare += (square - _meanSquare) * _levelPart;
        double bound = IsStill ? MovementLevel.StillUpToMg : MovementLevel.StillBelowMg;
        IsStill = _meanSquare < bound * bound;
    }

    // L0 = p L0' + (1 − p) x; L(i + 1) = p L'(i + 1) + L'(i) − p L(i).
    private void Advance(int first, double input)
    {
        double[] old = Functions[first..(first + PerAxis)];
        Functions[first] = _words.State((_pole * old[0]) + ((1 - _pole) * input), 1 << 20);
        for (int i = 1; i < PerAxis; i++)
        {
            Functions[first + i] = _words.State((_pole * old[i]) + old[i - 1] - (_pole * Functions[first + i - 1]), 1 << 20);
        }
    }

    private void FindPowers()
    {
        for (int axis = 0; axis < Axes; axis++)
        {
            double power = Functions.Skip(axis * PerAxis).Take(PerAxis).Sum(f => f * f);
            _meanPowers[axis] = Math.Max(power, _meanPowers[axis] + ((power - _meanPowers[axis]) / 16));
        }

        double least = _meanPowers.Sum() / 16;
        for (int axis = 0; axis < Axes; axis++)
        {
            double power = Math.Max(least, _meanPowers[axis]);
            PowerBits[axis] = power < 1 ? 0 : Math.ILogB(power) + 1;
        }
    }
}
