// SPDX-License-Identifier: MIT
using System.Numerics;
using System.Runtime.Intrinsics;
using SensorSim.Body.Movement;
using SensorSim.Sensing.Movement;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Movement;

public sealed class BandwidthTests
{
    // The analog one-pole: 1 / (1 + j f / B) (textbook). Between samples the signal is taken as a cubic, which costs high lines something.
    [TestCase(25, 1, 50, 1e-4)]
    [TestCase(25, 2, 50, 1e-4)]
    [TestCase(25, 5, 50, 0.003)]
    [TestCase(25, 10, 50, 0.04)]
    [TestCase(12, 2, 50, 1e-4)]
    [TestCase(2, 3, 100, 1e-4)]
    [TestCase(0.01, 0.02, 50, 1e-6)]
    [TestCase(500, 2, 50, 1e-4)]
    public void Response_ToASine_IsThatOfOnePole(double bandwidthHz, double hz, double rateHz, double share)
    {
        int count = (int)(rateHz * Math.Max(40, 20 / bandwidthHz));
        int settled = count / 2;
        double[] sine = [.. Enumerable.Range(0, (2 * count) + 1).Select(i => Math.Sin(2 * Math.PI * hz * i / rateHz))];
        double[] filtered = Filtered(bandwidthHz, 1 / rateHz, sine);
        Complex line = Measure.Line([.. filtered.Skip(settled * 2)], hz, rateHz) * Complex.FromPolarCoordinates(1, -2 * Math.PI * hz * settled * 2 / rateHz);
        Complex expected = 1 / new Complex(1, hz / bandwidthHz);
        Assert.That((line - expected).Magnitude / expected.Magnitude, Is.LessThan(share));
    }

    [Test]
    public void Apply_Constant_StaysAsItIs()
    {
        double[] samples = [.. Enumerable.Repeat(-0.7, 5001)];
        Assert.That(Filtered(3, 0.02, samples), Is.All.EqualTo(-0.7).Within(1e-14));
    }

    [Test]
    public void Apply_SilenceAfterAPulse_EndsAtZero()
    {
        double[] pulse = new double[20_001];
        pulse[3] = 1;
        double[] samples = Filtered(10, 0.02, pulse);
        Assert.That(samples.Where(s => s != 0 && Math.Abs(s) < 1e-30), Is.Empty, "never denormal");
        Assert.That(samples[^1], Is.Zero);
    }

    // rms = density × √(π/2 · bandwidth), the noise bandwidth of one pole (textbook, "√(1.57 B)" of design guides): 0.627 and 1.772 mg.
    [TestCase(100, 25, 0.627)]
    [TestCase(200, 50, 1.772)]
    [TestCase(100, 2, 0.177)]
    public void Noise_WithABandwidth_HasThePowerOfOnePole(double density, double bandwidthHz, double milliG)
    {
        const double Seconds = 4000;
        double rho = Math.Exp(-2 * Math.PI * bandwidthHz / 50);
        foreach (ChannelName axis in new[] { ChannelName.AccelX, ChannelName.AccelZ })
        {
            double[] noise = Noise(density, bandwidthHz, axis, Seconds);

            // Variance of a first-order process: standard error √(2/n · (1 + ρ²)/(1 − ρ²)) of it (textbook); rounded figures above.
            double wide = Math.Sqrt(2 / (Seconds * 50) * (1 + (rho * rho)) / (1 - (rho * rho)));
            Assert.That(1e3 * Measure.Rms(noise), Is.EqualTo(milliG).Within((2 * wide * milliG) + 5e-4));
            Assert.That(Measure.Autocorrelation(noise, 1), Is.EqualTo(rho).Within(4 * Math.Sqrt((1 - (rho * rho)) / (Seconds * 50)) + 1e-4));
        }
    }

    // A live density is a scale: from the latch on the codes are those that the new value would have given all along.
    [Test]
    public void Noise_DensityThatChanges_GoesOnFromTheLatchAsIfItHadAlwaysBeenSo()
    {
        KeyValues values = Settings.Fine().Set(AccelerometerKeys.BandwidthHz, 5);
        KeyValues silent = values.Copy().Set(AccelerometerKeys.NoiseUgPerRthz, 0);
        KeyValues loud = values.Copy().Set(AccelerometerKeys.NoiseUgPerRthz, 900);
        KeyValues stepped = silent.Copy().SetChanges(AccelerometerKeys.NoiseUgPerRthz, [new CourseChange(6.497, ChangeKind.Step, 900, 0)], []);
        int[] before = Recording.Of(silent, 16).Codes(ChannelName.AccelX);
        int[] after = Recording.Of(loud, 16).Codes(ChannelName.AccelX);

        // 50 Hz: sample 384 at 7.68 s is the first 64th one.
        Assert.That(Recording.Of(stepped, 16).Codes(ChannelName.AccelX), Is.EqualTo((int[])[.. before[..384], .. after[384..]]));
    }

    // The whole way, against the movement's own lines: the cadence's share of a walk, 3 dB and more behind a low-pass.
    [Test]
    public void Walking_BehindALowPass_IsSmallerByItsResponse()
    {
        KeyValues values = Settings.Steady().Set(MovementKeys.Activity, "walking").Set(MovementKeys.CadenceHz, 2);
        double[] plain = Measure.WithoutMean(Recording.Of(values, 200).Physical(ChannelName.AccelZ));
        double[] slow = Measure.WithoutMean(Recording.Of(values.Copy().Set(AccelerometerKeys.BandwidthHz, 2), 200).Physical(ChannelName.AccelZ));
        Complex ratio = Measure.Line(slow, 2, 50) / Measure.Line(plain, 2, 50);
        Assert.That((ratio - (1 / new Complex(1, 1))).Magnitude, Is.LessThan(1e-3));
    }

    // Each axis has its own lane: here the last one has the samples, the others something else or nothing.
    private static double[] Filtered(double bandwidthHz, double stepSeconds, double[] samples)
    {
        Vector256<double>[] lanes = [.. samples.Select((x, i) => Vector256.Create(0, i, -x, x))];
        Vector256<double>[] filtered = lanes[..^1];
        new AxisLowPass(bandwidthHz, new SampleGrid(0, stepSeconds)).Apply(filtered, lanes[^1]);
        return [.. filtered.Select(lane => lane[3])];
    }

    private static double[] Noise(double density, double bandwidthHz, ChannelName axis, double seconds)
    {
        KeyValues values = Settings.Fine().Set(AccelerometerKeys.BandwidthHz, bandwidthHz);
        double[] with = Recording.Of(values.Copy().Set(AccelerometerKeys.NoiseUgPerRthz, density), seconds).Physical(axis);
        return Measure.Less(with, Recording.Of(values, seconds).Physical(axis));
    }
}
