// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Running;

/// <summary>Takes what passes during a run: for writing to files or keeping for a picture.</summary>
public interface IRunSink
{
    /// <summary>A block has been read.</summary>
    /// <param name="block">The block; valid only during the call.</param>
    void OnBlock(SampleBlock block);

    /// <summary>The acquisition has done something to a channel; stretches come in pieces that touch. Most sinks do not ask.</summary>
    /// <param name="happened">What it has done.</param>
    void OnAcquisition(in AcquisitionEvent happened)
    {
    }

    /// <summary>A row of truth inside the length of the stream.</summary>
    /// <param name="truth">The row.</param>
    void OnTruth(in TruthEvent truth);

    /// <summary>The detector has given a mark.</summary>
    /// <param name="mark">The mark.</param>
    void OnMark(in Mark mark);

    /// <summary>A setting of the sensor changes; told only while a <see cref="ControlLoop"/> is closed, in order of time.</summary>
    /// <param name="change">The change, as the schedule holds it.</param>
    void OnSetting(in SettingChange change)
    {
        // Most sinks do not care.
    }
}
