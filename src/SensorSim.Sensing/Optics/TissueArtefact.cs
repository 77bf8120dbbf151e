// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
using SensorSim.Body.Movement;
using SensorSim.Signals.Processes;

namespace SensorSim.Sensing.Optics;

/// <summary>Movement artefact in the absorbance: acceleration through tissue that gives way slowly.</summary>
/// <remarks>
/// The tissue is a first-order low-pass at 2 Hz (choice of this project). Movement is a sum of sines, so the response to each is known
/// in closed form at the mean stride frequency: factor 1/(1 + j f/2 Hz). Only forward and vertical acceleration act.
/// </remarks>
internal sealed class TissueArtefact
{
    private const double CornerHz = 2;
    private const double ForwardShare = 0.6;
    private const double VerticalShare = 1;

    private readonly RotationGroup _terms;
    private readonly Vector256<double> _sine;
    private readonly Vector256<double> _cosine;
    private readonly bool _isActive;

    /// <summary>Creates the artefact of one slot.</summary>
    /// <param name="movement">Movement of the body.</param>
    /// <param name="rms">Wanted root mean square [absorbance].</param>
    public TissueArtefact(MovementModel movement, double rms)
    {
        int count = MovementModel.Multiples.Length;
        _terms = new RotationGroup(movement.Stride, MovementModel.Multiples);
        _isActive = movement.IsMoving && rms > 0;
        double power = 0;
        for (int i = 0; i < count; i++)
        {
            double multiple = MovementModel.Multiples[i];
            double s = (ForwardShare * movement.SineG(0, i)) + (VerticalShare * movement.SineG(2, i));
            double c = (ForwardShare * movement.CosineG(0, i)) + (VerticalShare * movement.CosineG(2, i));

            // s·sin + c·cos through 1/(1 + jr): divide by 1 + r², turn back by the angle of 1 + jr.
            double r = multiple * movement.Stride.FrequencyHz / CornerHz;
            double scale = 1 / (1 + (r * r));
            double sine = (s + (r * c)) * scale;
            double cosine = (c - (r * s)) * scale;
            _sine = _sine.WithElement(i, sine);
            _cosine = _cosine.WithElement(i, cosine);
            power += 0.5 * ((sine * sine) + (cosine * cosine));
        }

        double gain = _isActive ? rms / Math.Sqrt(power) : 0;
        _sine *= gain;
        _cosine *= gain;
    }

    private TissueArtefact(TissueArtefact other)
    {
        _terms = other._terms.Copy();
        _sine = other._sine;
        _cosine = other._cosine;
        _isActive = other._isActive;
    }

    /// <summary>Adds the artefact [absorbance].</summary>
    public void Add(Span<double> buffer, in SampleGrid grid, long firstIndex)
    {
        if (_isActive)
        {
            _terms.Add(buffer, grid, firstIndex, _sine, _cosine);
        }
    }

    /// <summary>An independent copy with the same state.</summary>
    public TissueArtefact Copy() => new(this);
}
