// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Pulse;

/// <summary>Where the landmarks of a pulse are looked for first, as times for a scale of 1 [s].</summary>
/// <remarks>Landmarks of neighbouring beats, and of one beat in several lights, lie at nearly the same places.</remarks>
internal struct PulseGuess
{
    // First guess of the minimum, as a share of the forward wave's time to its peak.
    private const double MinimumShare = 0.135;

    /// <summary>Creates the guess of a pulse of which nothing is known but its shape.</summary>
    /// <param name="contour">Shape of the pulse.</param>
    public PulseGuess(in PulseContour contour)
    {
        Tangent = contour.FootGuess;
        Minimum = MinimumShare * contour.ForwardToPeak;
        Steepest = contour.SteepestGuess;
        Peak = contour.PeakGuess;
        Shoulder = contour.ShoulderGuess;
        Curved = contour.CurvatureGuess;
        NotchShare = 1;
        DiastolicShare = 1;
    }

    /// <summary>Foot by tangents after the start.</summary>
    public double Tangent { get; set; }

    /// <summary>Minimum before the upstroke.</summary>
    public double Minimum { get; set; }

    /// <summary>Steepest point.</summary>
    public double Steepest { get; set; }

    /// <summary>Systolic peak.</summary>
    public double Peak { get; set; }

    /// <summary>Where the slope after the peak is largest.</summary>
    public double Shoulder { get; set; }

    /// <summary>Largest second derivative.</summary>
    public double Curved { get; set; }

    /// <summary>Whether the pulse that it comes from has a notch.</summary>
    public bool HasNotch { get; set; }

    /// <summary>Way from the notch to the shoulder, over that on the parabola that the slope is about there.</summary>
    public double NotchShare { get; set; }

    /// <summary>Likewise from the shoulder to the diastolic peak.</summary>
    public double DiastolicShare { get; set; }
}
