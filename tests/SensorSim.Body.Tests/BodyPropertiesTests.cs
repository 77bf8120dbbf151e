// SPDX-License-Identifier: MIT
using SensorSim.Body.Breathing;
using SensorSim.Body.Ecg;
using SensorSim.Body.Pulse;
using SensorSim.Body.Rhythm;
using SensorSim.Body.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Body.Tests;

/// <summary>What holds for every beat, whatever the knobs say.</summary>
public sealed class BodyPropertiesTests
{
    [Test]
    public void Beats_RandomKnobs_KeepTheirOrder([Range(0, 299)] int trial)
    {
        KeyValues values = RandomValues(new Random(trial));
        var heart = new Heartbeats(values, (ulong)trial, 60);
        string where = string.Join(", ", BodyKeys.All.OfType<NumberKey>().Where(values.IsSet).Select(k => $"{k.Name} {values[k]:0.##}"));
        double arrivalRoomMs = values[PulseKeys.ArrivalMs] - (6.34 * values[PulseKeys.ArrivalSpreadMs]);
        int without = 0;
        for (int id = 1; id < heart.Beats.Count; id++)
        {
            BeatView beat = heart.Beats[id];
            Assert.That(beat.Ecg[EcgBeat.R].CentreSeconds, Is.GreaterThan(heart.Beats[id - 1].Ecg[EcgBeat.R].CentreSeconds), where);
            if (!beat.Landmarks.HasFoot)
            {
                without++;
                continue;
            }

            // A foot before its R peak is possible only where the knobs leave no room for the spread.
            PulseLandmarks p = beat.Landmarks;
            Assert.That(p.FootMinimumSeconds, Is.LessThan(p.FootTangentSeconds), $"beat {id}: {where}");
            Assert.That(p.FootTangentSeconds, Is.LessThan(p.SteepestSeconds), $"beat {id}: {where}");
            Assert.That(p.SteepestSeconds, Is.LessThan(p.SystolicPeakSeconds), $"beat {id}: {where}");
            Assert.That(p.FootSecondDerivativeSeconds, Is.InRange(beat.Pulse[0].StartSeconds, p.SteepestSeconds), $"beat {id}: {where}");
            if (arrivalRoomMs > 0)
            {
                Assert.That(p.FootTangentSeconds, Is.GreaterThan(beat.R.Seconds), $"beat {id}: {where}");
            }

            Assert.That(p.HeightUnits, Is.Positive, where);
        }

        // Only short RR intervals against a long mean take the foot from a pulse: below 0.45 s times the factor of ejection time.
        Assert.That(without, Is.LessThanOrEqualTo(0.05 * heart.Beats.Count), where);
        Assert.That(heart.Rows.Count(r => r.Kind == MarkKind.NoPulse), Is.LessThanOrEqualTo(2 * without), where);
        bool HasMeaning(MarkKind kind) => kind is MarkKind.RPeak or MarkKind.RrMs or MarkKind.HeartRateBpm or MarkKind.PatMs or MarkKind.PPeak or MarkKind.TPeak;
        Assert.That(heart.Rows.Where(r => HasMeaning(r.Kind)).All(r => double.IsFinite(r.Value)), where);
        Assert.That(heart.Rows.All(r => r.TimeNs is >= 0 and < 80_000_000_000), where);
    }

    // Bodies in which some RR intervals are less than half the mean: pulses ride on the upstroke of others.
    [TestCase(112, 100, 140, 0)]
    [TestCase(130, 150, 150, 0)]
    [TestCase(112, 100, 140, 20)]
    [TestCase(130, 150, 150, 20)]
    public void Beats_ShortIntervalOnALongMean_HaveATrueFootOrNone(double rateBpm, double respiratoryMs, double slowMs, double spreadMs)
    {
        KeyValues values = new KeyValues().Set(HeartKeys.RateBpm, rateBpm).Set(HeartKeys.RespiratoryVariabilityMs, respiratoryMs)
            .Set(HeartKeys.SlowVariabilityMs, slowMs).Set(PulseKeys.ArrivalSpreadMs, spreadMs).Set(PulseKeys.RespiratoryAmplitudePercent, 50).Set(PulseKeys.FillingEffect, 0);
        int without = 0;
        for (ulong seed = 0; seed < 40; seed++)
        {
            var heart = new Heartbeats(values, seed, 120);
            if (spreadMs == 0)
            {
                // Where the RR interval is 0.39 to 0.41 s times the factor of ejection time, the foot jumps between two minima over the
                // wanted place and lies where it lies: about three in a thousand.
                double[] arrivals = [.. heart.Beats.Where(b => b.Landmarks.HasFoot).Select(b => b.Landmarks.FootTangentSeconds - b.R.Seconds)];
                Assert.That(arrivals.Count(a => Math.Abs(a - 0.210) > 1e-6), Is.LessThanOrEqualTo(0.02 * arrivals.Length));
                Assert.That(arrivals, Is.All.EqualTo(0.210).Within(0.06));
            }

            long[] none = [.. heart.Beats.Where(b => !b.Landmarks.HasFoot && b.R.Seconds >= 0).Select(b => b.Id)];
            Assert.That(heart.Times(MarkKind.NoPulse, ChannelName.Infrared).Select(t => t.Beat), Is.EqualTo(none));
            Assert.That(heart.Times(MarkKind.PulseFootTangent, ChannelName.Infrared).Select(t => t.Beat).Intersect(none), Is.Empty);
            without += none.Length;
        }

        Assert.That(without, Is.LessThan(70));
    }

    // The timing knobs of the body over their whole ranges.
    private static KeyValues RandomValues(Random random)
    {
        double Between(double low, double high) => low + ((high - low) * random.NextDouble());
        return new KeyValues()
            .Set(HeartKeys.RateBpm, Between(20, 250))
            .Set(HeartKeys.RespiratoryVariabilityMs, Between(0, 150))
            .Set(HeartKeys.SlowVariabilityMs, Between(0, 150))
            .Set(HeartKeys.SlowFrequencyHz, Between(0.04, 0.15))
            .Set(BreathingKeys.RatePerMin, Between(4, 60))
            .Set(BreathingKeys.SpreadPerMin, Between(0, 5))
            .Set(PulseKeys.ArrivalMs, Between(80, 400))
            .Set(PulseKeys.ArrivalSpreadMs, Between(0, 20))
            .Set(PulseKeys.RespiratoryAmplitudePercent, Between(0, 50))
            .Set(PulseKeys.FillingEffect, 0)
            .Set(EcgKeys.RMv, Between(-5, 5))
            .Set(EcgKeys.SMv, Between(-2, 2))
            .Set(EcgKeys.QMv, Between(-2, 2))
            .Set(EcgKeys.QrsMs, Between(40, 160))
            .Set(EcgKeys.PrMs, Between(80, 300))
            .Set(EcgKeys.QtcMs, Between(300, 600));
    }
}
