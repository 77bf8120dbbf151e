// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>Word lengths that a floating-point twin pretends to have; 0 means as many bits as a double has.</summary>
internal readonly record struct TwinWords
{
    /// <summary>Bits of every word that a stage keeps or hands on, the sign counted; the word just holds the stage's worst case.</summary>
    public int StateBits { get; init; }

    /// <summary>Bits of the weights of the cubic fit, the sign counted; one of them stands before the point.</summary>
    public int CoefficientBits { get; init; }

    /// <summary>Largest magnitude of a code.</summary>
    public double FullScale { get; init; }

    /// <summary>A value as a word keeps it that spans ±(full scale × gain): rounded to nearest, clipped.</summary>
    public double State(double value, double gain)
    {
        if (StateBits == 0)
        {
            return value;
        }

        double steps = Math.ScaleB(1, StateBits - 1);
        double step = FullScale * gain / steps;
        return Math.Clamp(Math.Round(value / step), -steps, steps - 1) * step;
    }

    /// <summary>A weight between −2 and 2 as a word keeps it.</summary>
    public double Coefficient(double weight) =>
        CoefficientBits == 0 ? weight : Math.ScaleB(Math.Round(Math.ScaleB(weight, CoefficientBits - 2)), 2 - CoefficientBits);
}
