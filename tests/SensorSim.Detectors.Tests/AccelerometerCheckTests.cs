// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.Tests;

/// <summary>What the check says is what the library does.</summary>
[TestFixture]
public sealed class AccelerometerCheckTests
{
    [Test]
    public void Refusal_EveryRateAndRange_IsGivenWhereNoCadenceCanCome()
    {
        foreach (int rateHz in new[] { 1, 11, 12, 50, 1600, 1601, 3200 })
        {
            foreach (double gPerCode in new[] { 1.0 / 4, 1.0 / 15.9, 1.0 / 16, 1.0 / 4096, 1.0 / (1 << 19), 1.0 / ((1 << 19) + 1) })
            {
                int codesPerG = (int)Math.Floor(Math.Round(256 / gPerCode) / 256);
                bool isUsed = rateHz is >= 12 and <= 1600 && codesPerG is >= 16 and <= 1 << 19;
                Assert.That(AccelerometerCheck.Refusal(Format(gPerCode, rateHz, rateHz, rateHz)) is null, Is.EqualTo(isUsed), $"{rateHz} Hz, {gPerCode} g a code");
            }
        }
    }

    [Test]
    public void Refusal_AxesOfSeveralRates_NamesThem() =>
        Assert.That(AccelerometerCheck.Refusal(Format(1.0 / 4096, 50, 50, 100)), Is.EqualTo("its axes have 50, 50, 100 Hz; they need one rate"));

    [Test]
    public void Refusal_AxesOfSeveralWeights_NamesThem() =>
        Assert.That(
            AccelerometerCheck.Refusal(new([Channel(ChannelName.AccelX, 50, 0.001), Channel(ChannelName.AccelY, 50, 0.001), Channel(ChannelName.AccelZ, 50, 0.5)])),
            Is.EqualTo("its axes have 0.001, 0.001, 0.5 g per code; they need one weight"));

    [Test]
    public void Refusal_TwoAxes_NamesThem() =>
        Assert.That(AccelerometerCheck.Refusal(Format(1.0 / 4096, 50, 50)), Is.EqualTo("it has accel_x and accel_y only; three axes are needed"));

    [Test]
    public void Refusal_NoAxis_IsNone() => Assert.That(AccelerometerCheck.Refusal(Format(1)), Is.Null);

    private static StreamFormat Format(double gPerCode, params int[] ratesHz) => new(
    [
        Channel(ChannelName.Ecg, 250, 0.001),
        .. ratesHz.Select((rateHz, axis) => Channel(ChannelName.AccelX + axis, rateHz, gPerCode)),
    ]);

    private static ChannelFormat Channel(ChannelName name, int rateHz, double unitPerCode) => new()
    {
        Name = name, Device = "watch", RateHz = rateHz, Bits = 16, IsSigned = true, UnitPerCode = unitPerCode,
    };
}
