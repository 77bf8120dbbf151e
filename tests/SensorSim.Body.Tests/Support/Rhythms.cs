// SPDX-License-Identifier: MIT
using SensorSim.Body.Breathing;
using SensorSim.Body.Ecg;
using SensorSim.Body.Rhythm;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;

namespace SensorSim.Body.Tests.Support;

/// <summary>The events of a rhythm by themselves, without waves.</summary>
internal sealed class Rhythms
{
    public Rhythms(KeyValues values, ulong seed, double untilSeconds, double fromSeconds = -8)
    {
        var engine = new RhythmEngine(values, seed, new BreathingModel(values, seed), new AtrialActivity(values, seed), fromSeconds);
        while (engine.HorizonSeconds < untilSeconds)
        {
            if (engine.TryNext(out HeartEvent item) && item.Seconds < untilSeconds)
            {
                Events.Add(item);
            }
        }
    }

    public List<HeartEvent> Events { get; } = [];

    /// <summary>R waves [s].</summary>
    public double[] R => [.. Events.Where(e => e.Class != BeatClass.Blocked).Select(e => e.Seconds)];

    /// <summary>RR intervals [ms].</summary>
    public double[] RrMs => [.. R.Skip(1).Zip(R, (b, a) => 1e3 * (b - a))];

    /// <summary>Classes of the beats, from a time on.</summary>
    public BeatClass[] ClassesFrom(double seconds) =>
        [.. Events.Where(e => e.Class != BeatClass.Blocked && e.Seconds >= seconds).Select(e => e.Class)];

    /// <summary>A heart without any variability at a rate.</summary>
    public static KeyValues Steady(double rateBpm) => new KeyValues()
        .Set(HeartKeys.RateBpm, rateBpm).Set(HeartKeys.RespiratoryVariabilityMs, 0).Set(HeartKeys.SlowVariabilityMs, 0)
        .Set(EctopyKeys.CouplingSpreadPercent, 0);
}
