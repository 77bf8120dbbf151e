// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Numerics;

/// <summary>From decibels to ratios and back.</summary>
public static class Decibels
{
    private const double Ln10 = 2.302585092994046;

    /// <summary>Ratio of amplitudes: 10^(dB / 20).</summary>
    /// <param name="decibel">Level [dB].</param>
    public static double Amplitude(double decibel) => PortableMath.Exp(decibel * (Ln10 / 20));

    /// <summary>Ratio of powers: 10^(dB / 10).</summary>
    /// <param name="decibel">Level [dB].</param>
    public static double Power(double decibel) => PortableMath.Exp(decibel * (Ln10 / 10));

    /// <summary>Level of a ratio of powers [dB].</summary>
    /// <param name="ratio">Ratio, above 0.</param>
    public static double OfPower(double ratio) => 10 / Ln10 * PortableMath.Log(ratio);
}
