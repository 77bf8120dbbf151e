// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Optics;

namespace SensorSim.Sensing.Tests.Optics.Chain;

/// <summary>The formulas against arithmetic with the constants of CODATA 2018 (scipy.constants 1.10).</summary>
public sealed class CurrentNoiseTests
{
    private const double CelsiusOf300K = 26.85;

    // sqrt(2 q I B).
    [TestCase(1000, 1e3, 17.900707438534376)]
    [TestCase(1000, 1e4, 56.60700723408719)]
    [TestCase(10000, 1e4, 179.00707438534377)]
    [TestCase(100, 1e3, 5.66070072340872)]
    public void ShotNa_OfACurrent_IsSchottkys(double na, double hz, double picoampere) =>
        Assert.That(CurrentNoise.ShotNa(na, hz) * 1000, Is.EqualTo(picoampere).Within(1e-10).Percent);

    // sqrt(4 k T / R), 300 K, for each root of a hertz.
    [TestCase(1000, 0.12871591976131003)]
    [TestCase(100, 0.4070354775692163)]
    [TestCase(10, 1.2871591976131)]
    public void ThermalNa_OfAResistor_IsNyquists(double kilohm, double picoampere)
    {
        Assert.That(CurrentNoise.ThermalNa(kilohm, CelsiusOf300K, 1) * 1000, Is.EqualTo(picoampere).Within(1e-10).Percent);
        Assert.That(CurrentNoise.ThermalNa(kilohm, CelsiusOf300K, 400) * 1000, Is.EqualTo(20 * picoampere).Within(1e-10).Percent);
    }

    // Shot and thermal noise are equal where the current drops 2 k T / q over the resistor: 51.704 mV at 300 K.
    [Test]
    public void ShotAndThermal_AtTwiceTheThermalVoltage_AreEqual()
    {
        const double Kilohm = 470;
        const double Na = 51.70399957287107e-3 / (Kilohm * 1e3) * 1e9;
        Assert.That(CurrentNoise.ShotNa(Na, 5000), Is.EqualTo(CurrentNoise.ThermalNa(Kilohm, CelsiusOf300K, 5000)).Within(1e-10).Percent);
    }

    // Electrons in a window are counted: signal over noise is √N (Poisson), 20 log10 of it in dB; N = I T / q = 6.2415e8 for 1 µA and 100 µs.
    [TestCase(1000, 100, 87.95289606265014)]
    [TestCase(1000, 10, 77.95289606265014)]
    [TestCase(100, 100, 77.95289606265014)]
    public void ShotNa_InAWindow_IsTheCountOfElectrons(double na, double windowUs, double decibel)
    {
        double ratio = na / CurrentNoise.ShotNa(na, CurrentNoise.BandwidthHz(windowUs));
        Assert.That(20 * Math.Log10(ratio), Is.EqualTo(decibel).Within(1e-9));
    }

    // ∫ sinc²(f T) df, from 0: summed by trapezoids of 0.0005/T up to 1000/T, beyond which it is below 1/(2 π² 1000 T).
    [Test]
    public void BandwidthHz_OfAMean_IsTheIntegralOfItsPower()
    {
        double sum = 0.5;
        for (int i = 1; i <= 2_000_000; i++)
        {
            double x = Math.PI * 0.0005 * i;
            sum += Math.Sin(x) * Math.Sin(x) / (x * x);
        }

        Assert.That(CurrentNoise.BandwidthHz(100), Is.EqualTo(sum * 0.0005 / 100e-6).Within(0.02).Percent);
    }
}
