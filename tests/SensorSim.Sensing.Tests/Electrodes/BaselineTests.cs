// SPDX-License-Identifier: MIT
using SensorSim.Body.Breathing;
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Electrodes;

/// <summary>
/// Baseline wander: spline through random nodes 0.5 s apart. Its spectrum is sinc^8 (Unser, IEEE Signal Processing Magazine 16(6):22,
/// 1999), −3 dB near 0.455 Hz, and published wander lies below 0.5 Hz (Friesen et al. 1990, from memory).
/// </summary>
public sealed class BaselineTests
{
    private const int Rate = 50;
    private const double Seconds = 21600;
    private const double NodeSeconds = 0.5;
    private const double WanderMv = 0.2;

    private static readonly double[] s_wander = Recording.Of(
        Settings.Silent().Set(EcgAmplifierKeys.RateHz, Rate).Set(EcgAmplifierKeys.BaselineWanderMvRms, WanderMv), Seconds).Physical(ChannelName.Ecg);

    [Test]
    public void BaselineWanderMvRms_OverSixHours_IsAsStated()
    {
        // Standard error of the rms of a coloured Gaussian process: σ/√(2 T / ∫ρ²dτ), ∫ρ² = ∫S²/(∫S)² (Bendat & Piersol; textbook).
        double correlationSeconds = NodeSeconds * Integral(16) / (Integral(8) * Integral(8));
        double error = 1 / Math.Sqrt(2 * Seconds / correlationSeconds);
        Assert.That(Measure.Rms(s_wander), Is.EqualTo(WanderMv).Within(4 * error * WanderMv));
    }

    // Power in a band 0.06 Hz wide about f against the same near zero; half of it near 0.455 Hz.
    [TestCase(0.200)]
    [TestCase(0.455)]
    [TestCase(0.700)]
    [TestCase(1.000)]
    public void BaselineSpectrum_AtAFrequency_IsSincToTheEighth(double hz)
    {
        double[] power = Measure.Spectrum(s_wander);
        double ratio = Band(power, hz) / Band(power, 0.05);
        double expected = Sinc8(hz * NodeSeconds) / Sinc8(0.05 * NodeSeconds);

        // Averages of m bins under a Hann window: 18/35 m independent ones; the curve across the band adds under 1 %.
        double error = Math.Sqrt(2 / (0.06 * Seconds * 18 / 35));
        Assert.That(ratio, Is.EqualTo(expected).Within(expected * ((4 * error) + 0.01)));
        if (hz == 0.455)
        {
            Assert.That(expected, Is.EqualTo(0.5).Within(0.01), "−3 dB");
        }
    }

    [Test]
    public void BaselineSpectrum_AboveTwoHertz_IsEmpty()
    {
        double[] power = Measure.Spectrum(s_wander);
        Assert.That(power.Skip((int)(2 * Seconds)).Sum() / power.Sum(), Is.LessThan(1e-5));
    }

    [Test]
    public void BreathingBaselineMv_OnAFlatEcg_IsASineAtTheBreathingRate()
    {
        double[] x = Recording.Of(
            Settings.Silent().Set(EcgAmplifierKeys.BreathingBaselineMv, 0.15).Set(BreathingKeys.RatePerMin, 15), 200).Physical(ChannelName.Ecg);

        // 15 breaths a minute are 0.25 Hz; 0.15 mV peak as in McSharry et al. 2003.
        Assert.That(Measure.Line(x, 0.25, 250).Magnitude, Is.EqualTo(0.15).Within(1e-5));
        Assert.That(x.Max(), Is.EqualTo(0.15).Within(1e-4));
        Assert.That(x.Min(), Is.EqualTo(-0.15).Within(1e-4));
    }

    private static double Band(double[] power, double hz)
    {
        int first = (int)((hz - 0.03) * Seconds);
        return power.Skip(first).Take((int)(0.06 * Seconds)).Average();
    }

    private static double Sinc8(double u) => Math.Pow(u == 0 ? 1 : Math.Sin(Math.PI * u) / (Math.PI * u), 8);

    private static double Integral(int power)
    {
        double sum = 0;
        for (int i = 0; i < 400_000; i++)
        {
            double u = (i + 0.5) * 1e-5;
            sum += Math.Pow(Math.Sin(Math.PI * u) / (Math.PI * u), power);
        }

        return 2 * sum * 1e-5;
    }
}
