// SPDX-License-Identifier: MIT
using SensorSim.Body.Breathing;
using SensorSim.Body.Ecg;
using SensorSim.Body.Pulse;
using SensorSim.Body.Rhythm;
using SensorSim.Body.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;

namespace SensorSim.Body.Tests;

/// <summary>What holds for every beat, whatever the knobs say.</summary>
public sealed class BodyPropertiesTests
{
    [Test]
    public void Beats_RandomKnobs_KeepTheirOrder([Range(0, 399)] int trial)
    {
        KeyValues values = RandomValues(new Random(trial));
        var heart = new Heartbeats(values, (ulong)trial, 40);
        string where = string.Join(", ", BodyKeys.All.OfType<NumberKey>().Where(values.IsSet).Select(k => $"{k.Name} {values[k]:0.##}"));
        for (int id = 1; id < heart.Beats.Count; id++)
        {
            BeatView beat = heart.Beats[id];
            PulseLandmarks p = beat.Landmarks;
            Assert.That(beat.Ecg[EcgBeat.R].CentreSeconds, Is.GreaterThan(heart.Beats[id - 1].Ecg[EcgBeat.R].CentreSeconds), where);
            Assert.That(beat.R.Seconds, Is.GreaterThan(heart.Beats[id - 1].R.Seconds), where);
            Assert.That(
                new[] { beat.R.Seconds, p.FootTangentSeconds, p.SteepestSeconds, p.SystolicPeakSeconds }, Is.Ordered, $"beat {id}: {where}");
            Assert.That(
                new[] { p.FootMinimumSeconds, p.FootSecondDerivativeSeconds, p.SteepestSeconds }, Is.Ordered, $"beat {id}: {where}");
            Assert.That(p.FootMinimumSeconds, Is.LessThan(p.FootTangentSeconds), $"beat {id}: {where}");
            Assert.That(p.HeightUnits, Is.Positive, where);
            Assert.That(
                p.FootTangentSeconds, Is.GreaterThan(heart.Beats[id - 1].Landmarks.FootTangentSeconds), $"beat {id}: {where}");
        }

        bool HasMeaning(MarkKind kind) => kind is MarkKind.RPeak or MarkKind.RrMs or MarkKind.HeartRateBpm or MarkKind.PatMs or MarkKind.PPeak or MarkKind.TPeak;
        Assert.That(heart.Rows.Where(r => HasMeaning(r.Kind)).All(r => double.IsFinite(r.Value)), where);
        Assert.That(heart.Rows.All(r => r.TimeNs >= 0), where);
    }

    // Every knob of the body over its whole range, but for what the documentation calls out of the models' validity.
    private static KeyValues RandomValues(Random random)
    {
        double Between(double low, double high) => low + ((high - low) * random.NextDouble());
        double rate = Between(20, 250);
        double room = 60e3 / rate;
        return new KeyValues()
            .Set(HeartKeys.RateBpm, rate)
            .Set(HeartKeys.RespiratoryVariabilityMs, Math.Min(150, Between(0, room / 6)))
            .Set(HeartKeys.SlowVariabilityMs, Math.Min(150, Between(0, room / 6)))
            .Set(HeartKeys.SlowFrequencyHz, Between(0.04, 0.15))
            .Set(BreathingKeys.RatePerMin, Between(4, 60))
            .Set(BreathingKeys.SpreadPerMin, Between(0, 5))
            .Set(PulseKeys.ArrivalMs, Between(130, 400))
            .Set(PulseKeys.ArrivalSpreadMs, Between(0, 20))
            .Set(PulseKeys.RespiratoryAmplitudePercent, Between(0, 50))
            .Set(EcgKeys.RMv, Between(-5, 5))
            .Set(EcgKeys.SMv, Between(-2, 2))
            .Set(EcgKeys.QMv, Between(-2, 2))
            .Set(EcgKeys.QrsMs, Between(40, 160))
            .Set(EcgKeys.PrMs, Between(80, 300))
            .Set(EcgKeys.QtcMs, Between(300, 600));
    }
}
