// SPDX-License-Identifier: MIT
using SensorSim.Signals.Numerics;

namespace SensorSim.Body.Oxygen;

/// <summary>Perfusion index and pulse height.</summary>
public static class Perfusion
{
    /// <summary>Pulse height of the absorbance: ln of brightest over darkest light.</summary>
    /// <param name="percent">Perfusion index p [%]: brightest less darkest light over the middle of both, above 0 and below 200.</param>
    /// <remarks>p = 2 (max − min) / (max + min), so max / min = (1 + p/2) / (1 − p/2).</remarks>
    public static double Height(double percent)
    {
        double half = percent * 0.005;
        return PortableMath.Log((1 + half) / (1 - half));
    }

    /// <summary>Perfusion index of a pulse height [%]: the inverse of <see cref="Height"/>.</summary>
    /// <param name="height">Pulse height of the absorbance, at least 0.</param>
    public static double Percent(double height)
    {
        double darkest = PortableMath.Exp(-height);
        return 200 * (1 - darkest) / (1 + darkest);
    }
}
