// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Exports;

/// <summary>Writes a stream to files of one form, block by block.</summary>
/// <remarks>A form without a place for truth, marks or what the acquisition did leaves them out; they stand in their own files.</remarks>
public interface IRecordingWriter : IDisposable
{
    /// <summary>Writes the samples of a block; blocks come in order, without a stretch left out.</summary>
    /// <param name="block">The block; valid only during the call.</param>
    /// <exception cref="ArgumentException">The block does not begin where the one before ended.</exception>
    void Write(SampleBlock block);

    /// <summary>Takes a row of truth.</summary>
    /// <param name="truth">The row.</param>
    void AddTruth(in TruthEvent truth)
    {
    }

    /// <summary>Takes a mark of a detector.</summary>
    /// <param name="mark">The mark.</param>
    void AddMark(in Mark mark)
    {
    }

    /// <summary>Takes what the acquisition did.</summary>
    /// <param name="happened">What it did.</param>
    void AddAcquisition(in AcquisitionEvent happened)
    {
    }

    /// <summary>Writes what is still held, finishes and closes every file.</summary>
    void Complete();
}
