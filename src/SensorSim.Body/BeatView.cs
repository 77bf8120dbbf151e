// SPDX-License-Identifier: MIT
using SensorSim.Body.Ecg;
using SensorSim.Body.Pulse;

namespace SensorSim.Body;

/// <summary>Everything that one beat puts into the signals.</summary>
public struct BeatView
{
    /// <summary>Number of the beat, from <see cref="BodyModel.FirstBeatId"/> on.</summary>
    public long Id;

    /// <summary>RR interval that begins with the beat [s].</summary>
    public double RrSeconds;

    /// <summary>Lagged RR interval that shapes the beat [s].</summary>
    public double LaggedRrSeconds;

    /// <summary>Waves of the ECG.</summary>
    public EcgBeat Ecg;

    /// <summary>True R peak.</summary>
    public RPeak R;

    /// <summary>Pacing spikes.</summary>
    public PacingSpikes Spikes;

    /// <summary>Components of the pulse.</summary>
    public PulseBeat Pulse;

    /// <summary>Absorbance of a pulse unit for each light.</summary>
    public PulseGains Gains;

    /// <summary>True landmarks of the pulse.</summary>
    public PulseLandmarks Landmarks;
}
