// SPDX-License-Identifier: MIT
using SensorSim.Body.Ecg;
using SensorSim.Body.Pressure;
using SensorSim.Body.Pulse;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Body;

/// <summary>Everything that one event of the heart puts into the signals: a beat, or a P wave that is not conducted.</summary>
public struct BeatView
{
    /// <summary>Number of the event, from <see cref="BodyModel.FirstBeatId"/> on.</summary>
    public long Id;

    /// <summary>Number of the beat, from 0 on; −1 for a P wave that is not conducted. It is the truth's <c>beat_id</c>.</summary>
    public long BeatId;

    /// <summary>Centre of the R wave [s]; of a P wave that is not conducted: where R would have been.</summary>
    public double Seconds;

    /// <summary>Class; <see cref="BeatClass.Blocked"/> for a P wave that is not conducted.</summary>
    public BeatClass Class;

    /// <summary>RR interval that ends with the beat [s].</summary>
    public double RrSeconds;

    /// <summary>Lagged RR interval that shapes the beat's ECG, memory 60 s [s].</summary>
    public double LaggedRrSeconds;

    /// <summary>Lagged RR interval that shapes the beat's pulse, memory 10 s [s].</summary>
    public double RecentRrSeconds;

    /// <summary>Waves of the ECG.</summary>
    public EcgBeat Ecg;

    /// <summary>Which of their edges lie under other waves.</summary>
    public EcgEdge Overlapped;

    /// <summary>Pacing spikes.</summary>
    public PacingSpikes Spikes;

    /// <summary>True R peak.</summary>
    public RPeak R;

    /// <summary>Factor of the pulse by filling; below <see cref="PulseFilling.LeastGain"/> truth says <c>no_pulse</c>.</summary>
    public double Filling;

    /// <summary>Time in which the heart has filled before the beat [s].</summary>
    public double FillingSeconds;

    /// <summary>RR interval at which the heart would fill as usual [s]; NaN: filling does not matter.</summary>
    public double UsualRrSeconds;

    /// <summary>Pulse arrival with its parts, and the pressure.</summary>
    public Arrival Arrival;

    /// <summary>Oxygen saturation of arterial blood [%].</summary>
    public double SaturationPercent;

    /// <summary>Components of the pulse.</summary>
    public PulseBeat Pulse;

    /// <summary>Absorbance of a pulse unit for each light.</summary>
    public PulseGains Gains;

    /// <summary>True landmarks of the pulse in each light; in one of which the body tells no truth those in infrared light.</summary>
    public LightLandmarks Lights;

    /// <summary>True landmarks of the pulse in infrared light.</summary>
    public readonly PulseLandmarks Landmarks => Lights[ChannelName.Infrared - ChannelName.Red];

    /// <summary>Whether there is a QRS complex.</summary>
    public readonly bool IsBeat => BeatId >= 0;
}
