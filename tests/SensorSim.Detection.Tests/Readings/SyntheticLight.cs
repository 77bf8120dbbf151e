// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pulses;
using SensorSim.Detection.Readings;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Tests;

/// <summary>Red and infrared light of the two-Gaussian pulse (Tang et al. 2020, "excellent"), by Beer-Lambert: light = level × exp(−height × pulse).</summary>
internal sealed class SyntheticLight
{
    public int RateHz { get; init; } = 100;

    public double BeatS { get; init; } = 0.83;

    public double PerfusionPercent { get; init; } = 1;

    public double Ratio { get; init; } = 0.6;

    public double RedLevel { get; init; } = 300_000;

    public double InfraredLevel { get; init; } = 400_000;

    /// <summary>rms of white noise in each sample, over the level of light.</summary>
    public double NoiseShare { get; init; }

    /// <summary>Breathing of the level, over the pulse, in infrared; red with a ratio of 1.</summary>
    public double BaselineShare { get; init; }

    /// <summary>Runs the stage and takes down what it gives.</summary>
    public List<Reading> Run(ref Oxygen oxygen, double durationS, int seed)
    {
        var random = new Random(seed);
        var given = new List<Reading>();
        NoProbe probe = default;
        double height = PerfusionPercent / 100 / SyntheticPulse.Height;
        long pulses = 0;
        for (int i = 0; i < (int)(durationS * RateHz); i++)
        {
            double t = (double)i / RateHz;
            double pulse = Wave(t / BeatS) + (BaselineShare * Math.Sin(2 * Math.PI * 0.25 * t));
            double redPulse = (Ratio * Wave(t / BeatS)) + (BaselineShare * Math.Sin(2 * Math.PI * 0.25 * t));
            double red = RedLevel * (Math.Exp(-height * redPulse) + (NoiseShare * SyntheticEcg.Normal(random)));
            double infrared = InfraredLevel * (Math.Exp(-height * pulse) + (NoiseShare * SyntheticEcg.Normal(random)));
            oxygen.Next((int)Math.Round(red), (int)Math.Round(infrared), ref probe);
            if (t > (pulses + 0.4) * BeatS)
            {
                int amplitude = (int)Math.Round(InfraredLevel * PerfusionPercent / 100);
                var told = new PulseEvent(default, default, default, amplitude, 255, i, default, (int)InfraredLevel, pulses == 0);
                pulses++;
                if (oxygen.Pulse(told, (long)(t * 1000 * 256)))
                {
                    given.Add(oxygen.Latest);
                }
            }
        }

        return given;
    }

    private static double Wave(double beats)
    {
        double theta = ((beats - Math.Floor(beats)) * 2 * Math.PI) - Math.PI;
        double sum = 0;
        for (int k = -1; k <= 1; k++)
        {
            double u = (theta + (2 * Math.PI * k) + 1.5161) / 0.6303;
            double v = (theta + (2 * Math.PI * k) - 0.8186) / 1.0225;
            sum += Math.Exp(-u * u / 2) + (0.1999 * Math.Exp(-v * v / 2));
        }

        return sum;
    }
}
