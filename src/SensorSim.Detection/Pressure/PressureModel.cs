// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Pressure;

/// <summary>Published forms of pressure P against arrival time T, each with two constants a and b.</summary>
/// <remarks>
/// Same slope at the calibration, different curvature: linear is local; the logarithm follows from Moens and Korteweg with the exponential
/// elasticity of Hughes 1979; the inverse square from energy and Bramwell and Hill; pulse pressure from Poon and Zhang 2005 (the last three
/// attributions from memory). Which of them suits a person is not settled.
/// </remarks>
public enum PressureModel : byte
{
    /// <summary>P = a + b T.</summary>
    Linear = 0,

    /// <summary>P = a + b ln T.</summary>
    Logarithmic = 1,

    /// <summary>P = a + b / T.</summary>
    Inverse = 2,

    /// <summary>P = a + b / T².</summary>
    InverseSquare = 3,

    /// <summary>Mean pressure M = a + b ln T; systolic less diastolic as 1 / T²; systolic M + 2/3, diastolic M − 1/3 of that.</summary>
    PulsePressure = 4,
}
