// SPDX-License-Identifier: MIT
using CsCheck;
using SensorSim.Body;
using SensorSim.Body.Movement;
using SensorSim.Body.Rhythm;
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Movement;
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Bedrock;

/// <summary>Knobs anywhere in their ranges, often at the ends: no exception, codes within their word, and still the same for every cut.</summary>
public sealed class AnyKnobsTests
{
    private static readonly double[] s_ecgRates = [50, 125, 250, 500, 1000, 2000];
    private static readonly double[] s_opticsRates = [20, 25, 50, 100, 125, 250, 500, 1000];
    private static readonly double[] s_accelRates = [10, 25, 50, 100, 125, 1000];

    [TestCase(40)]
    [TestCase(150, Category = "Slow")]
    public void Read_AnyKnobsAndCuts_GivesTheSameCodesWithinTheirWord(int draws) =>
        Gen.Select(Gen.Int, Gen.Long[1, 9000].Array[1, 5]).Sample(
            (draw, cuts) =>
            {
                KeyValues values = Draw(new Random(draw));
                Recording whole = Recording.Of(values, 25);
                Recording cut = Recording.OfRest(new SensorStream(values, 7, 25), cuts);
                cut.AssertSameAs(whole, $"draw {draw}");
                Assert.That(cut.TruthText(25), Is.EqualTo(whole.TruthText(25)));
                Assert.That(whole.Truth.Select(t => t.TimeNs), Has.All.GreaterThanOrEqualTo(0));
                if (!whole.HasOverflow)
                {
                    whole.AssertGapsAreTold(25);
                }

                foreach (ChannelFormat channel in whole.Format.Channels)
                {
                    int[] codes = whole.Codes(channel.Name);
                    if (codes.Length == 0)
                    {
                        continue;
                    }

                    Assert.That(codes.Min(), Is.GreaterThanOrEqualTo(channel.MinimumCode));
                    Assert.That(codes.Max(), Is.LessThanOrEqualTo(channel.MaximumCode));
                }
            },
            iter: draws,
            threads: 1);

    private static KeyValues Draw(Random random)
    {
        var values = new KeyValues();
        foreach (NumberKey key in BodyKeys.All.Concat(SensingKeys.All).OfType<NumberKey>())
        {
            double place = random.Next(4) switch { 0 => 0, 1 => 1, _ => random.NextDouble() };
            double value = key.Minimum + (place * (key.Maximum - key.Minimum));
            if (random.Next(3) > 0)
            {
                values.Set(key, key.IsWhole ? Math.Round(value) : value);
            }
        }

        // What a scenario refuses: variability that leaves no RR interval, rates without a common clock.
        double room = Math.Max(0, (60000 / values[HeartKeys.RateBpm]) - 240) / 3;
        values.Set(HeartKeys.RespiratoryVariabilityMs, Math.Min(room / 1.5, values[HeartKeys.RespiratoryVariabilityMs]));
        values.Set(HeartKeys.SlowVariabilityMs, Math.Min(room / 1.5, values[HeartKeys.SlowVariabilityMs]));
        values.Set(EcgAmplifierKeys.RateHz, s_ecgRates[random.Next(s_ecgRates.Length)]);
        values.Set(OpticsKeys.RateHz, s_opticsRates[random.Next(s_opticsRates.Length)]);
        values.Set(AccelerometerKeys.RateHz, s_accelRates[random.Next(s_accelRates.Length)]);
        return values.Set(MovementKeys.Activity, random.Next(2) == 0 ? "rest" : "walking");
    }
}
