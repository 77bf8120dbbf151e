// SPDX-License-Identifier: MIT
namespace SensorSim.Sensing.Optics;

/// <summary>A value that goes to a new target as a first-order step response, sample by sample.</summary>
/// <remarks>
/// The target changes right after the sample made last: j samples later the distance is that of the change × e^(−j · step/τ), the closed form
/// at the sampling instants. With τ = 0 the next sample has the target.
/// </remarks>
internal struct SettlingValue
{
    // Of the units in use, mA and ratios: far below any code.
    private const double Negligible = 1e-12;

    private readonly double _keep;
    private double _rest;

    /// <summary>Creates a value at its target.</summary>
    /// <param name="target">The target.</param>
    /// <param name="keep">What is left of a distance after one sample: e^(−step/τ), below 1.</param>
    public SettlingValue(double target, double keep)
    {
        Target = target;
        _keep = keep;
    }

    /// <summary>Where it goes to.</summary>
    public double Target { get; private set; }

    /// <summary>Whether it has got there.</summary>
    public readonly bool IsSettled => _rest == 0;

    /// <summary>Gives it a new target, from where it is.</summary>
    public void MoveTo(double target)
    {
        if (target != Target)
        {
            _rest = Target + _rest - target;
            Target = target;
        }
    }

    /// <summary>The value at the next sample.</summary>
    public double Next()
    {
        _rest *= _keep;
        if (Math.Abs(_rest) < Negligible)
        {
            _rest = 0;
        }

        return Target + _rest;
    }
}
