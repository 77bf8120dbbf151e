// SPDX-License-Identifier: MIT
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Signals.Tests.Processes;

/// <summary>A 1/f band: equal power in every octave.</summary>
public sealed class PinkBandTests
{
    // The mean square over a time long against 1/0.001 Hz; twenty lines of equal power, so exact but for the last turn of each.
    [Test]
    public void Value_OverLongTimes_HasTheVariance()
    {
        var band = new PinkBand(new KeyedRandom(3, "test.pink"), 0.001, 0.038, 7);
        double sum = 0;
        const int Count = 400_000;
        for (int i = 0; i < Count; i++)
        {
            double v = band.Value(i);
            sum += v * v;
        }

        Assert.That(Math.Sqrt(sum / Count), Is.EqualTo(7).Within(2).Percent);
    }

    // Of 1/f noise every equal part of the logarithmic scale holds the same power (definition); measured by MathNet's Fourier transform.
    [Test]
    public void Value_EveryPartOfTheLogarithmicScale_HoldsTheSamePower()
    {
        const int Count = 1 << 17;
        const double StepSeconds = 4;
        var powers = new double[5];
        for (ulong seed = 0; seed < 3; seed++)
        {
            var band = new PinkBand(new KeyedRandom(seed, "test.pink"), 0.001, 0.032, 1);
            var x = new System.Numerics.Complex[Count];
            for (int i = 0; i < Count; i++)
            {
                x[i] = band.Value(i * StepSeconds);
            }

            MathNet.Numerics.IntegralTransforms.Fourier.Forward(x, MathNet.Numerics.IntegralTransforms.FourierOptions.NoScaling);
            for (int k = 1; k < Count / 2; k++)
            {
                double octave = Math.Log2(k / (Count * StepSeconds) / 0.001);
                if (octave is >= 0 and < 5)
                {
                    powers[(int)octave] += 2 * Math.Pow(x[k].Magnitude / Count, 2) / 3;
                }
            }
        }

        // Four lines an octave; a line near an edge may leak into the neighbour.
        Assert.That(powers, Is.All.EqualTo(0.2).Within(0.055));
        Assert.That(powers.Sum(), Is.EqualTo(1).Within(0.02));
    }
}
