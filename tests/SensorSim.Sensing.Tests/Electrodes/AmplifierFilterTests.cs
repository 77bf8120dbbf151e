// SPDX-License-Identifier: MIT
using System.Numerics;
using SensorSim.Sensing.Devices;
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;

namespace SensorSim.Sensing.Tests.Electrodes;

/// <summary>High-pass and low-pass of the ECG amplifier against scipy 1.10.1 and closed forms.</summary>
public sealed class AmplifierFilterTests
{
    // scipy.signal.freqz(*scipy.signal.butter(2, corner, fs=rate), fs=rate): magnitude and phase [rad].
    [TestCase(40, 250, 4, 0.9999649397621464, -0.12977360991966733)]
    [TestCase(40, 250, 20, 0.9770274082793988, -0.7014399993738357)]
    [TestCase(40, 250, 40, 0.7071067811865472, -1.5707963267948972)]
    [TestCase(40, 250, 60, 0.3242144965988024, -2.2417958152573996)]
    [TestCase(100, 1000, 50, 0.9729114990789717, -0.7351448469557901)]
    [TestCase(100, 1000, 150, 0.3766947266356657, -2.152732840568153)]
    [TestCase(20, 50, 2, 0.9999985806461787, -0.05808165560269301)]
    [TestCase(20, 50, 20, 0.7071067811865474, -1.5707963267948966)]
    public void LowPass_OfASine_HasTheResponseOfButterworth(double corner, double rate, double hz, double gain, double phase)
    {
        var filter = new LowPass(corner, rate);
        Complex response = Response(x => filter.Run(x), hz, rate);
        Assert.That(response.Magnitude, Is.EqualTo(gain).Within(1e-9));
        Assert.That(response.Phase, Is.EqualTo(phase).Within(1e-9));
    }

    // scipy.signal.group_delay(scipy.signal.butter(2, corner, fs=rate), w=[1e-4], fs=rate) [samples]: so close to 0 Hz that nine digits stand.
    [TestCase(40, 250, 1.2862224600937333)]
    [TestCase(40, 500, 2.7539990837163346)]
    [TestCase(40, 1000, 5.597326527595014)]
    [TestCase(100, 250, 0.22975292054776242)]
    [TestCase(150, 500, 0.5137431483733175)]
    public void DelaySeconds_OfALowPass_IsItsGroupDelayAtZero(double corner, double rate, double samples) =>
        Assert.That(LowPass.DelaySeconds(corner, rate) * rate, Is.EqualTo(samples).Within(1e-9 * samples));

    // A slow ramp comes out late by the group delay, whatever the formula says.
    [Test]
    public void LowPass_OfARamp_LagsByItsDelay()
    {
        var filter = new LowPass(40, 250);
        double[] x = [.. Enumerable.Range(0, 500).Select(i => i / 250.0)];
        filter.Run(x);
        Assert.That((499 / 250.0) - x[499], Is.EqualTo(LowPass.DelaySeconds(40, 250)).Within(1e-12));
    }

    // The channel declares it beside what the maker states of the device; without a low-pass nothing. 5144890 ns by the value of scipy above.
    [TestCase(0, 0, 0)]
    [TestCase(0, 3, 3_000_000)]
    [TestCase(40, 0, 5_144_890)]
    [TestCase(40, 3, 8_144_890)]
    public void DeclaredDelayNs_OfTheEcg_HoldsTheLowPass(double corner, double deviceMs, long expected)
    {
        KeyValues values = new KeyValues().Set(EcgAmplifierKeys.LowPassHz, corner).Set(DeviceKeys.First.DeclaredDelayMs, deviceMs);
        var stream = new SensorStream(values, 1, 1);
        Assert.That(stream.Format.Channels[0].DeclaredDelayNs, Is.EqualTo(expected));
        Assert.That(stream.Format.Channels[1].DeclaredDelayNs, Is.EqualTo((long)(deviceMs * 1e6)), "of the red slot");
        Assert.That(stream.Clocks[0].OffsetNs, Is.EqualTo(-(long)(deviceMs * 1e6)), "what is left is not the filter's");
    }

    // scipy.signal.freqs([1, 0], [1, 2π · 0.5]): the analog high-pass of 0.5 Hz; lines between samples of 1 kHz change the phase by πf/10⁶ at most.
    [TestCase(0.05, 0.09950371902099892, 1.4711276743037345)]
    [TestCase(0.25, 0.4472135954999579, 1.1071487177940904)]
    [TestCase(0.5, 0.7071067811865476, 0.7853981633974483)]
    [TestCase(1, 0.8944271909999159, 0.46364760900080615)]
    [TestCase(5, 0.995037190209989, 0.09966865249116204)]
    [TestCase(40, 0.9999218841540817, 0.012499349019361679)]
    public void HighPass_OfASine_HasTheResponseOfTheAnalogFilter(double hz, double gain, double phase)
    {
        var filter = new HighPass(0.5, 1e-3);
        filter.Settle(0, 0);
        Complex response = Response(x => filter.Run(x), hz, 1000);
        Assert.That(response.Magnitude, Is.EqualTo(gain).Within(1e-6 * gain));
        Assert.That(response.Phase, Is.EqualTo(phase).Within(1e-4));
    }

    // The test of extended bandwidth: 3 mV for 100 ms leave at most 0.1 mV behind at 0.05 Hz (IEC 60601-2-47, from memory).
    // One pole leaves 3 mV (1 − e^(−2π · 0.05 · 0.1)) = 92.8 µV below.
    [Test]
    public void HighPass_After3MvFor100Ms_Leaves93Microvolt()
    {
        var filter = new HighPass(0.05, 1e-3);
        filter.Settle(0, 0);
        double[] x = [.. Enumerable.Range(0, 200).Select(i => i is > 0 and <= 100 ? 3.0 : 0)];
        filter.Run(x);
        double a = 2 * Math.PI * 0.05;
        double expected = -3 * (1 - Math.Exp(-a * 0.1));
        Assert.That(expected, Is.EqualTo(-0.0928).Within(1e-4));

        // Edges are lines of 1 ms: they let go of (1 − e^(−aT))/(aT) of it.
        Assert.That(x[101], Is.EqualTo(expected * (1 - Math.Exp(-a * 1e-3)) / (a * 1e-3)).Within(1e-12));
        Assert.That(x[1], Is.EqualTo(3).Within(5e-4), "lines of 1 ms");
        Assert.That(Math.Log(x[101] / x[199]), Is.EqualTo(2 * Math.PI * 0.05 * 0.098).Within(1e-9), "decay");
    }

    // A line from the start on: x = vt gives v/a · (1 − e^(−at)), to the last digits since lines are what the filter assumes.
    [Test]
    public void HighPass_OfARamp_IsExact()
    {
        var filter = new HighPass(0.67, 1 / 250.0);
        filter.Settle(0, 0);
        double[] x = [.. Enumerable.Range(0, 1000).Select(i => 2.0 * i / 250)];
        filter.Run(x);
        double a = 2 * Math.PI * 0.67;
        for (int i = 0; i < x.Length; i++)
        {
            Assert.That(x[i], Is.EqualTo(2 / a * (1 - Math.Exp(-a * i / 250))).Within(1e-12));
        }
    }

    // Through the whole channel: the same difference equation with scipy's coefficients, butter(2, 40, fs=250), started settled (lfilter_zi).
    [Test]
    public void LowPassHz_InTheChannel_IsScipysDifferenceEquation()
    {
        double[] x = EcgTap.Of(Settings.Fine(), 10).Millivolts;
        double[] y = EcgTap.Of(Settings.Fine().Set(EcgAmplifierKeys.LowPassHz, 40), 10).Millivolts;
        double b = 0.14532388387704237;
        double x1 = x[0];
        double x2 = x[0];
        double y1 = x[0];
        double y2 = x[0];
        for (int i = 0; i < x.Length; i++)
        {
            double expected = (b * (x[i] + (2 * x1) + x2)) + (0.6710290907740966 * y1) - (0.25232462628226593 * y2);
            Assert.That(y[i], Is.EqualTo(expected).Within(1e-13), $"sample {i}");
            (x2, x1, y2, y1) = (x1, x[i], y1, expected);
        }
    }

    // White noise is defined at the converter: filters before it do not touch it.
    [Test]
    public void WhiteNoise_BehindFilters_StaysTheSame()
    {
        var filtered = Settings.Fine().Set(EcgAmplifierKeys.LowPassHz, 20).Set(EcgAmplifierKeys.HighPassHz, 0.67);
        double[] noise = Measure.Less(
            EcgTap.Of(filtered.Copy().Set(EcgAmplifierKeys.WhiteNoiseUvRms, 30), 10).Millivolts, EcgTap.Of(filtered, 10).Millivolts);
        double[] plain = Measure.Less(
            EcgTap.Of(Settings.Fine().Set(EcgAmplifierKeys.WhiteNoiseUvRms, 30), 10).Millivolts, EcgTap.Of(Settings.Fine(), 10).Millivolts);
        Assert.That(noise, Is.EqualTo(plain).Within(1e-14));
        Assert.That(Measure.Rms(plain), Is.EqualTo(0.030).Within(0.003));
    }

    // Offset that stood before the stream is forgotten by the high-pass; a change of it dies away with the corner's time constant.
    [Test]
    public void OffsetMv_BehindAHighPass_IsGoneFromTheStart()
    {
        double[] x = EcgTap.Of(Settings.Silent().Set(ElectrodeKeys.OffsetMv, 200).Set(EcgAmplifierKeys.HighPassHz, 0.5), 5).Millivolts;
        Assert.That(x, Has.All.EqualTo(0).Within(1e-12));
    }

    // Complex gain of a filter at a frequency, after it has settled.
    private static Complex Response(Action<double[]> run, double hz, double rate)
    {
        // Whole periods under a Hann window leave nothing of the mirror line.
        int settle = (int)(20 * rate);
        int count = (int)Math.Round(40 * rate);
        double[] x = [.. Enumerable.Range(0, settle + count).Select(i => Math.Sin(2 * Math.PI * hz * i / rate))];
        double[] y = [.. x];
        run(y);
        return Measure.Line(y[settle..], hz, rate) / Measure.Line(x[settle..], hz, rate);
    }
}
