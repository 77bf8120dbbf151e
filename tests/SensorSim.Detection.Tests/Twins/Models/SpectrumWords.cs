// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>Word lengths that the twin of the spectrum pretends to have; 0 means as many bits as a double has.</summary>
internal readonly record struct SpectrumWords
{
    /// <summary>Bits of a sample held, the sign counted; one exponent for all eight seconds, so that the largest needs all but one of them.</summary>
    public int SampleBits { get; init; }

    /// <summary>Bits of window, sines and cosines, the sign counted.</summary>
    public int SineBits { get; init; }

    /// <summary>Bits of the words of the transform, the sign counted: nine of them are room for its growth above the largest sample.</summary>
    public int SumBits { get; init; }

    /// <summary>Bits of a bin's power; the largest needs all of them.</summary>
    public int PowerBits { get; init; }

    /// <summary>Samples as they are held.</summary>
    public double[] Samples(double[] samples)
    {
        double largest = samples.Max(Math.Abs);
        if (SampleBits == 0 || largest == 0)
        {
            return samples;
        }

        double step = Math.ScaleB(1, Math.ILogB(largest) + 1 - (SampleBits - 1));
        return [.. samples.Select(s => Math.Round(s / step) * step)];
    }

    /// <summary>Step of the transform's words for samples up to a largest one.</summary>
    public double SumStep(double largest) => SumBits == 0 || largest == 0 ? 0 : Math.ScaleB(1, Math.ILogB(largest) + 1 + 9 - (SumBits - 1));

    /// <summary>Powers as they are handed on.</summary>
    public double[] Powers(double[] powers)
    {
        double largest = powers.Max();
        if (PowerBits == 0 || largest == 0)
        {
            return powers;
        }

        double step = Math.ScaleB(1, Math.ILogB(largest) + 1 - PowerBits);
        return [.. powers.Select(p => Math.Floor(p / step) * step)];
    }
}
