// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Movement;
using SensorSim.Sensing.Optics;
using SensorSim.Signals.Keys;

namespace SensorSim.Sensing.Tests.Support;

/// <summary>White noise of every channel by itself: a run with less a run without.</summary>
internal static class NoiseOnly
{
    public const double EcgUv = 50;
    public const double OpticsNa = 3;
    public const double AccelUg = 200;

    /// <summary>Noise of the channels in order, in their units, all at one rate.</summary>
    public static IEnumerable<double[]> Channels(int rateHz, double seconds, ulong seed = 7)
    {
        // Ambient light lifts the dark slot off the lower rail.
        KeyValues without = Settings.Steady()
            .Set(EcgAmplifierKeys.RateHz, rateHz).Set(OpticsKeys.RateHz, rateHz).Set(AccelerometerKeys.RateHz, rateHz)
            .Set(AmbientKeys.LevelNa, 100);
        KeyValues with = without.Copy()
            .Set(EcgAmplifierKeys.WhiteNoiseUvRms, EcgUv)
            .Set(OpticsKeys.WhiteNoiseNaRms, OpticsNa)
            .Set(AccelerometerKeys.NoiseUgPerRthz, AccelUg);
        Recording noisy = Recording.Of(with, seconds, seed);
        Recording clean = Recording.Of(without, seconds, seed);
        return noisy.Format.Channels.Select(c => Measure.Less(noisy.Physical(c.Name), clean.Physical(c.Name)));
    }
}
