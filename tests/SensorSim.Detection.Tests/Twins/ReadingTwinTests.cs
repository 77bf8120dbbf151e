// SPDX-License-Identifier: MIT
using SensorSim.Detection.Readings;

namespace SensorSim.Detection.Tests.Twins;

/// <summary>Arrival times against the same formula in doubles (for the other readings, see their own tests).</summary>
[TestFixture]
public sealed class ReadingTwinTests
{
    [Test]
    public void Arrival_RandomPairs_IsTheDifferenceRoundedToAMicrosecond()
    {
        var random = new Random(3);
        var arrival = new Arrival();
        arrival.Start(500, 2, 5, 256 * 3);

        // Within the reach of the median, so that none is left out.
        for (int i = 1; i <= 300; i++)
        {
            double beatS = i * 1.3;
            var peak = SamplePosition.From256((long)(beatS * 250 * 256) + random.Next(256));
            var foot = SamplePosition.From256((long)((beatS + 0.2 + (0.015 * random.NextDouble())) * 100 * 256));
            arrival.AddRPeak(peak);
            Assert.That(arrival.AddFoot(foot), Is.True);
            double exactUs = ((foot.In256 / 256.0 / 100) - (peak.In256 / 256.0 / 250) - (3 / 500.0)) * 1e6;
            Assert.That(arrival.TimeUs, Is.EqualTo(exactUs).Within(0.5 + 1e-6));
        }
    }
}
