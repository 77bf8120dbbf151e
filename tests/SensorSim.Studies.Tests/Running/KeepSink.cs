// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.Tests.Running;

/// <summary>Keeps what passes.</summary>
internal sealed class KeepSink : IRunSink
{
    public List<TruthEvent> Truth { get; } = [];

    public List<Mark> Marks { get; } = [];

    public List<(long Begin, long End)> Blocks { get; } = [];

    public List<AcquisitionEvent> Acquisition { get; } = [];

    public void OnBlock(SampleBlock block) => Blocks.Add((block.BeginTick, block.EndTick));

    public void OnTruth(in TruthEvent truth) => Truth.Add(truth);

    public void OnMark(in Mark mark) => Marks.Add(mark);

    public void OnAcquisition(in AcquisitionEvent happened) => Acquisition.Add(happened);
}
