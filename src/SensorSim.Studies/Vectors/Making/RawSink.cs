// SPDX-License-Identifier: MIT
using SensorSim.Files.VectorSets;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.Vectors.Making;

/// <summary>Writes the samples of a run as raw numbers.</summary>
internal sealed class RawSink(RawRecordingWriter writer) : IRunSink
{
    /// <inheritdoc/>
    public void OnBlock(SampleBlock block) => writer.Write(block);

    /// <inheritdoc/>
    public void OnTruth(in TruthEvent truth)
    {
        // Only samples.
    }

    /// <inheritdoc/>
    public void OnMark(in Mark mark)
    {
        // Only samples.
    }
}
