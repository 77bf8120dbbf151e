// SPDX-License-Identifier: MIT
using System.Numerics;

namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>Power spectra of the light and of the artefact in doubles, bins 0 to 127; four times the squared magnitude, as the stage has it.</summary>
internal sealed class SpectrumPairTwin
{
    private const int Bins = 128;

    /// <summary>Both spectra of as many samples, through a Hann window.</summary>
    public SpectrumPairTwin(double[] light, double[] artefact, in SpectrumWords words = default)
    {
        double[] first = words.Samples(light);
        double[] second = words.Samples(artefact);
        if (words is { SineBits: 0, SumBits: 0 })
        {
            Light = words.Powers(Power(Windowed(first, 0, 0)));
            Artefact = words.Powers(Power(Windowed(second, 0, 0)));
            return;
        }

        // One after the other, each with the step that its own size asks for; the stage does both at once.
        Light = words.Powers(Power(Windowed(first, words.SineBits, 0), words.SineBits, words.SumStep(first.Max(Math.Abs))));
        Artefact = words.Powers(Power(Windowed(second, words.SineBits, 0), words.SineBits, words.SumStep(second.Max(Math.Abs))));
    }

    public double[] Light { get; }

    public double[] Artefact { get; private set; }

    /// <summary>Each bin from 1 to 126 of the artefact becomes the largest of itself and its neighbours.</summary>
    public void Spread()
    {
        double[] own = [.. Artefact];
        own[0] = 0;
        Artefact = [.. own.Select((p, k) => k is 0 or Bins - 1 ? p : Math.Max(p, Math.Max(own[k - 1], own[k + 1])))];
    }

    private static Complex[] Windowed(double[] samples, int sineBits, double step)
    {
        var padded = new Complex[FourierTwin.Length];
        for (int i = 0; i < samples.Length; i++)
        {
            double sine = Math.Sin(Math.PI * (i + 0.5) / samples.Length);
            double value = samples[i] * FourierTwin.Sine(sine * sine, sineBits);
            padded[i] = step == 0 ? value : Math.Round(value / step) * step;
        }

        return padded;
    }

    private static double[] Power(Complex[] windowed, int sineBits = 0, double step = 0)
    {
        Complex[] bins = sineBits == 0 && step == 0 ? FourierTwin.Exact(windowed) : FourierTwin.Rounded(windowed, sineBits, step);
        return [.. bins.Take(Bins).Select((z, k) => k == 0 ? 0 : 4 * ((z.Real * z.Real) + (z.Imaginary * z.Imaginary)))];
    }
}
