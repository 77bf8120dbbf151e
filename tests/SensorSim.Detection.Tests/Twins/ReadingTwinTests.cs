// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;
using SensorSim.Detection.Readings;

namespace SensorSim.Detection.Tests.Twins;

/// <summary>Readings against the same formula in doubles.</summary>
[TestFixture]
public sealed class ReadingTwinTests
{
    [Test]
    public void HeartRate_RandomIntervals_IsTheFormulaRoundedToAThousandth([Values(125, 250, 1000)] int rateHz)
    {
        var random = new Random(rateHz);
        var rate = new HeartRate();
        rate.Start(rateHz);
        var places = new List<long>();
        long place = 1000;
        int compared = 0;
        for (int i = 0; i < 300; i++)
        {
            place += (long)(rateHz * 256 * (0.3 + random.NextDouble()));
            places.Add(place);
            if (rate.Add(new BeatEvent(SamplePosition.From256(place), 1, 255, i == 0, 0)))
            {
                double seconds = (place - places[^9]) / 256.0 / rateHz;
                Assert.That(rate.RateMilliBpm, Is.EqualTo(60_000 * 8 / seconds).Within(0.5 + 1e-9));
                compared++;
            }
        }

        Assert.That(compared, Is.EqualTo(292));
    }

    [Test]
    public void Arrival_RandomPairs_IsTheDifferenceRoundedToAMicrosecond()
    {
        var random = new Random(3);
        var arrival = new Arrival();
        arrival.Start(500, 2, 5, 256 * 3);
        for (int i = 1; i <= 300; i++)
        {
            double beatS = i * 1.3;
            var peak = SamplePosition.From256((long)(beatS * 250 * 256) + random.Next(256));
            var foot = SamplePosition.From256((long)((beatS + 0.12 + (0.25 * random.NextDouble())) * 100 * 256));
            arrival.AddRPeak(peak);
            Assert.That(arrival.AddFoot(foot), Is.True);
            double exactUs = ((foot.In256 / 256.0 / 100) - (peak.In256 / 256.0 / 250) - (3 / 500.0)) * 1e6;
            Assert.That(arrival.TimeUs, Is.EqualTo(exactUs).Within(0.5 + 1e-6));
        }
    }
}
