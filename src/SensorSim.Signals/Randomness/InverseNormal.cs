// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Randomness;

/// <summary>Interim.</summary>
public static class InverseNormal
{
    /// <summary>Standard normal number from a word.</summary>
    /// <param name="word">32 random bits.</param>
    public static double FromWord(uint word)
    {
        unchecked
        {
            uint other = (word * 2654435761u) ^ 0x9E3779B9u;
            return Math.Sqrt(-2 * Math.Log((word + 0.5) / 4294967296.0)) * Math.Cos(2 * Math.PI * other / 4294967296.0);
        }
    }
}
