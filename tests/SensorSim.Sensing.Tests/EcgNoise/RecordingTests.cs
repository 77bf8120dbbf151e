// SPDX-License-Identifier: MIT
using MathNet.Numerics;
using MathNet.Numerics.Interpolation;
using SensorSim.Sensing.EcgNoise;
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Tests.EcgNoise;

/// <summary>Recorded noise: level, seam, interpolation, start, low-pass.</summary>
public sealed class RecordingTests
{
    private static double[] White(int count, ulong seed = 1)
    {
        var x = new double[count];
        new KeyedRandom(seed, "test.recording").AddNormals(x, 0, 3);
        return x;
    }

    private static double[] Drawn(NoiseRecording recording, double rate, int count, double start = 0)
    {
        var x = new double[count];
        recording.LoopFor(rate).Add(x, new SampleGrid(0, 1 / rate), 0, start, 1);
        return x;
    }

    // Over many incommensurable places of the loop the mean square is the closed form itself; 3e-3 for places that are not quite even.
    [TestCase(250, 250.0)]
    [TestCase(250, 617.0)]
    [TestCase(250, 101.0)]
    [TestCase(100, 250.0)]
    public void Add_OfWhiteValues_HasTheStatedRms(int recordedHz, double channelHz)
    {
        var recording = new NoiseRecording([.. White(5000).Select(v => v + 40)], recordedHz);
        double[] x = Drawn(recording, channelHz + 0.01731, 400_000, 0.37);
        Assert.That(Measure.Rms(x), Is.EqualTo(1).Within(3e-3));
        Assert.That(x.Average(), Is.EqualTo(0).Within(5e-3));
    }

    // Kernel of Keys 1981 with itself: 57/70, 71/560, −1/28, 1/560 (rational arithmetic); white values give 57/70 of their power in between.
    [Test]
    public void Add_OfWhiteValues_HasTheKernelsCorrelationInItsScale()
    {
        double[] values = White(200_000);
        double atValues = Drawn(new NoiseRecording(values, 100), 100, 150_000, 0).Average(v => v * v);
        Assert.That(atValues, Is.EqualTo(70.0 / 57).Within(70.0 / 57 * 4 * Math.Sqrt(2.0 / 150_000)));
    }

    // Cubic convolution through the recording's values, against MathNet's Hermite spline with the slopes (c − a)/2 that define it.
    [Test]
    public void Add_BetweenValues_IsCubicConvolution()
    {
        double[] values = White(400);
        double[] at = [.. Drawn(new NoiseRecording(values, 100), 100, 300, 0.5)];
        double[] slopes = [.. Enumerable.Range(0, 300).Select(i => i is 0 or 299 ? 0 : 50 * (at[i + 1] - at[i - 1]))];
        var spline = CubicSpline.InterpolateHermite(Generate.LinearSpaced(300, 0, 2.99), at, slopes);
        double[] fine = Drawn(new NoiseRecording(values, 100), 730, 2100, 0.5);
        for (int i = 20; i < 2100; i++)
        {
            Assert.That(fine[i], Is.EqualTo(spline.Interpolate(i / 730.0)).Within(1e-9), $"sample {i}");
        }
    }

    // The end laid over the begin: a slow sine that does not fit the recording jumps by at most a few times what it moves elsewhere.
    [Test]
    public void Add_OverTheSeam_HasNoStep()
    {
        double[] values = [.. Enumerable.Range(0, 5000).Select(i => Math.Sin(2 * Math.PI * 0.313 * i / 250))];
        double[] x = Drawn(new NoiseRecording(values, 250), 250, 12_000);
        double step = x.Zip(x.Skip(1)).Max(p => Math.Abs(p.Second - p.First));
        Assert.That(step, Is.LessThan(4 * 2 * Math.PI * 0.313 / 250 * Math.Sqrt(2)));

        // 5,000 values less a seam of 250 come again.
        Assert.That(x[4750..9500], Is.EqualTo(x[..4750]).Within(1e-9));
    }

    // Equal power: white noise keeps its power in the seam (standard error of a mean square of n values: √(2/n)).
    [Test]
    public void Add_InTheSeam_KeepsThePower()
    {
        double seam = 0;
        double rest = 0;
        for (ulong seed = 0; seed < 40; seed++)
        {
            double[] x = Drawn(new NoiseRecording(White(5000, seed), 250), 250, 4750);
            seam += x[..250].Average(v => v * v) / 40;
            rest += x[250..].Average(v => v * v) / 40;
        }

        Assert.That(seam / rest, Is.EqualTo(1).Within(4 * Math.Sqrt(2.0 / 10_000)));
    }

    // A recording of 1000 Hz with a line at 300 Hz would fold to 50 Hz at 250 Hz; the one at 40 Hz stays, all the power but what the second of the
    // seam changes: there two waves of any phase meet.
    [Test]
    public void Add_ForASlowerChannel_FoldsNothing()
    {
        double[] values = [.. Enumerable.Range(0, 20_000).Select(i => Math.Sin(2 * Math.PI * 0.3 * i) + Math.Sin(2 * Math.PI * 0.04 * i))];
        double[] x = Drawn(new NoiseRecording(values, 1000), 250, 4000);
        Assert.That(Measure.Line(x, 40, 250).Magnitude, Is.EqualTo(Math.Sqrt(2)).Within(0.05));
        Assert.That(Measure.Line(x, 50, 250).Magnitude, Is.LessThan(2e-3));
    }

    // White values: 12 of 125 Hz; standard error of the share by the number of its bins.
    [Test]
    public void Share_OfWhiteValuesAndOfALine_IsThatOfTheirSpectrum()
    {
        RecordingLoop white = new NoiseRecording(White(50_000), 250).LoopFor(250);
        // Over the 57/70 that interpolation leaves of white values (Keys' kernel, rational arithmetic).
        double expected = 12 / 125.0 * 70 / 57;
        Assert.That(white.Share(8, 20), Is.EqualTo(expected).Within(expected * 4 / Math.Sqrt(12.0 / 125 * 25_000)));
        RecordingLoop line = new NoiseRecording([.. Enumerable.Range(0, 9000).Select(i => Math.Sin(2 * Math.PI * 13 * i / 250))], 250).LoopFor(250);
        Assert.That(line.Share(8, 20), Is.GreaterThan(0.99));
        Assert.That(line.Share(14, 20), Is.LessThan(0.01));
    }

    // What is told of a slow recording is what stands in the drawn signal: kernel at 20 of 50 Hz −2.9 dB (scipy).
    [Test]
    public void Share_OfASlowRecording_IsThatOfWhatIsDrawn()
    {
        var recording = new NoiseRecording(White(4050), 50);
        double[] x = Drawn(recording, 250, 20_000);
        double[] power = Measure.Spectrum(x);
        double share = power[(8 * 80)..(20 * 80)].Sum() / power.Sum();
        Assert.That(recording.LoopFor(250).Share(8, 20), Is.EqualTo(share).Within(0.05 * share));
        RecordingLoop line = new NoiseRecording([.. Enumerable.Range(0, 4050).Select(i => Math.Sin(2 * Math.PI * 0.3961 * i))], 50).LoopFor(250);
        double[] y = Drawn(new NoiseRecording([.. Enumerable.Range(0, 4050).Select(i => Math.Sin(2 * Math.PI * 0.3961 * i))], 50), 250, 20_000);
        double drawn = Math.Pow(Measure.Line(y, 0.3961 * 50, 250).Magnitude, 2) / 2;
        Assert.That(line.Share(18, 22), Is.EqualTo(drawn).Within(0.03 * drawn));
        Assert.That(drawn, Is.LessThan(0.9), "the images have the rest");
    }

    [Test]
    public void RecordingUvRms_OfAnotherSeed_StartsElsewhereAndAddsTheSameScaled()
    {
        KeyValues silent = Settings.Silent().Attach(EcgNoiseKeys.RecordingFile, new NoiseRecording(White(5000), 360));
        double[] one = AnalogEcg.Of(silent.Copy().Set(EcgNoiseKeys.RecordingUvRms, 50), 30, seed: 7);
        double[] other = AnalogEcg.Of(silent.Copy().Set(EcgNoiseKeys.RecordingUvRms, 50), 30, seed: 8);
        double[] louder = AnalogEcg.Of(silent.Copy().Set(EcgNoiseKeys.RecordingUvRms, 150), 30, seed: 7);
        Assert.That(Measure.Rms(one), Is.EqualTo(0.05).Within(0.05 * 0.04));
        Assert.That(Math.Abs(MathNet.Numerics.Statistics.Correlation.Pearson(one, other)), Is.LessThan(0.1));
        Assert.That(louder, Is.EqualTo(one.Select(v => 3 * v)).Within(1e-12));
    }

    [Test]
    public void RecordingUvRms_WithoutAFile_IsNoNoise() =>
        Assert.That(AnalogEcg.Of(Settings.Silent().Set(EcgNoiseKeys.RecordingUvRms, 50), 5), Has.All.Zero);

    [TestCase(63)]
    [TestCase(1_000_001)]
    public void NoiseRecording_OfAnotherLength_IsRefused(int count) =>
        Assert.That(() => new NoiseRecording(White(count), 250), Throws.ArgumentException);

    [Test]
    public void NoiseRecording_OfOneValue_IsRefused() =>
        Assert.That(() => new NoiseRecording([.. Enumerable.Repeat(3.5, 100)], 250), Throws.ArgumentException);

    // Neighbours that are loaded together and values that are picked one by one: the same bits, round the seam and where places round.
    [Test]
    public void Add_OneByOne_GivesTheSameBits([Values(250.0, 250.001, 249.9, 100, 700)] double rate)
    {
        RecordingLoop loop = new NoiseRecording(White(1000), 250).LoopFor(250);
        var grid = new SampleGrid(0.001, 1 / rate);
        var whole = new double[4000];
        var single = new double[whole.Length];
        loop.Add(whole, grid, 3, 0.99, 2);
        for (int i = 0; i < single.Length; i++)
        {
            loop.Add(single.AsSpan(i, 1), grid, 3 + i, 0.99, 2);
        }

        Assert.That(single, Is.EqualTo(whole));
    }

    // Half a million seconds on, times ten million: places are still told apart to a millionth of a value.
    [Test]
    public void Add_AfterAYear_IsStillTheLoop()
    {
        RecordingLoop loop = new NoiseRecording(White(1000), 250).LoopFor(250);
        var early = new double[500];
        var late = new double[500];
        loop.Add(early, new SampleGrid(0, 1.0 / 250), 0, 0.2, 1);
        loop.Add(late, new SampleGrid(0, 1.0 / 250), 750L * 10_000_000, 0.2, 1);
        Assert.That(loop.Length, Is.EqualTo(750));
        Assert.That(late, Is.EqualTo(early).Within(1e-4));
    }
}
