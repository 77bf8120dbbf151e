// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Body.Ecg;

/// <summary>Stub.</summary>
public sealed class AtrialActivity
{
    /// <summary>Stub.</summary>
    public AtrialActivity(KeyValues values, ulong seed) => FlutterPhase = new WanderingPhase(new KeyedRandom(seed, "flutter.phase"), 5, 0.02, 0.001, 0.05);

    /// <summary>Stub.</summary>
    public WanderingPhase FlutterPhase { get; }

    /// <summary>Stub.</summary>
    public double SecondsOfFlutterWave(long n)
    {
        double t = (n - FlutterPhase.Turns(0)) / 5;
        for (int i = 0; i < 20; i++)
        {
            t += (n - FlutterPhase.Turns(t)) / 5;
        }

        return t;
    }
}
