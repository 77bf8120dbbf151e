// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;
using SensorSim.Detection.Pulses;

namespace SensorSim.WordLengths;

/// <summary>The fixed-point detectors over an array.</summary>
internal static class Library
{
    public static double[] Beats(int[] codes)
    {
        var detector = new BeatDetector();
        detector.Start(Signals.EcgRateHz);
        var found = new List<double>();
        for (int from = 0; from < codes.Length;)
        {
            from += detector.Take(codes.AsSpan(from), out bool isBeat);
            if (isBeat)
            {
                found.Add(detector.Event.RPeak.In256 / 256.0 / Signals.EcgRateHz);
            }
        }

        return [.. found];
    }

    public static double[] Feet(int[] codes)
    {
        var detector = new PulseDetector();
        detector.Start(Signals.LightRateHz, 1);
        var found = new List<double>();
        for (int from = 0; from < codes.Length;)
        {
            from += detector.Take(codes.AsSpan(from), out bool isPulse);
            if (isPulse)
            {
                found.Add(detector.Event.Foot.In256 / 256.0 / Signals.LightRateHz);
            }
        }

        return [.. found];
    }
}
