// SPDX-License-Identifier: MIT
using SensorSim.Detection.Movement;

namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>Normalised LMS in doubles, from the equations of docs/detection-movement.md: step, leak, outliers, guard, the line between two steps.</summary>
internal sealed class CancellerTwin
{
    private const int PerAxis = MovementReference.Functions;
    private readonly TwinWords _words;
    private readonly double _perLight;
    private readonly double _levelPart;
    private double _level;
    private double _estimate;
    private double _slope;
    private double _place;
    private double _meanError;
    private double _meanInput;
    private double _slowError;
    private double _slowInput;
    private int _steps;
    private int _learned;
    private int _leaking;
    private bool _isHelping;
    private bool _isFresh = true;

    /// <summary>As the stage is started; the words hold the weights, which span ±1024 codes for 1/16384 g.</summary>
    public CancellerTwin(int lightRateHz, int accelRateHz, in TwinWords words = default)
    {
        _words = words;
        int grid = Math.Min(MovementReference.GridRateHz(accelRateHz), lightRateHz);
        _perLight = (double)grid / lightRateHz;
        _levelPart = Math.ScaleB(1, -MovementReference.LevelShift(grid));
    }

    /// <summary>What was taken off the last sample [codes].</summary>
    public double Estimate { get; private set; }

    public bool IsActive { get; private set; }

    public double[] Weights { get; } = new double[Word12.Length];

    /// <summary>The code without the artefact.</summary>
    public double Next(double light, MovementReferenceTwin reference)
    {
        if (_steps != reference.Steps || _isFresh)
        {
            Step(light, reference);
        }
        else
        {
            _place = Math.Min(1, _place + _perLight);
        }

        Estimate = _estimate + (_slope * _place);
        return light - Estimate;
    }

    private void Step(double light, MovementReferenceTwin reference)
    {
        _level = _isFresh ? light : _level;
        _isFresh = false;
        (_steps, _place) = (reference.Steps, 0);
        double input = light - _level;
        _level += input * _levelPart;
        if (reference.IsStill)
        {
            (_estimate, _slope, IsActive) = (0, 0, false);
            return;
        }

        double estimate = Weights.Zip(reference.Functions, (w, u) => w * u).Sum();
        double used = _isHelping ? estimate : 0;
        _slope = IsActive ? used - _estimate : 0;
        (_estimate, IsActive) = (used, true);
        if (reference.IsForLearning)
        {
            Learn(input, estimate, reference);
        }
    }

    private void Learn(double input, double estimate, MovementReferenceTwin reference)
    {
        double error = Clip(input - estimate, (4 * _meanError) + 64);
        double size = Clip(input, (4 * _meanInput) + 64);
        _meanError += (Math.Abs(error) - _meanError) / 32;
        _meanInput += (Math.Abs(size) - _meanInput) / 32;
        _slowError += (Math.Abs(error) - _slowError) / 128;
        _slowInput += (Math.Abs(size) - _slowInput) / 128;
        _isHelping = _slowError < _slowInput * (1 - (_isHelping ? 1.0 / 128 : 1.0 / 32));

        // μ = 2^−4 for 32 steps, then 2^−5.
        int shift = _learned < 32 ? 4 : 5;
        _learned = Math.Min(32, _learned + 1);
        for (int i = 0; i < Weights.Length; i++)
        {
            Weights[i] = Word(Weights[i] + Math.ScaleB(error * reference.Functions[i], -(reference.PowerBits[i / PerAxis] + shift)));
        }

        _leaking = (_leaking + 1) % Weights.Length;
        Weights[_leaking] = Word(Weights[_leaking] * (1 - (1.0 / 1024)));
        if (_meanError > 1.125 * _meanInput)
        {
            for (int i = 0; i < Weights.Length; i++)
            {
                Weights[i] = Word(Weights[i] * 7 / 8);
            }
        }
    }

    private double Word(double weight) => _words.State(weight, 1 << 10);

    private static double Clip(double value, double limit) => Math.Clamp(value, -limit, limit);
}
