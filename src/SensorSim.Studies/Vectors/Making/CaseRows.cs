// SPDX-License-Identifier: MIT
using SensorSim.Files.Rows;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.Vectors.Making;

/// <summary>Writes truth and the library's answers of a case, and keeps both: acceptance and verdicts are made from all rows together.</summary>
internal sealed class CaseRows : IRunSink, IDisposable
{
    private readonly TruthCsvWriter _truthFile;
    private readonly DetectionsCsvWriter _marksFile;
    private readonly SampleCounts _counts;
    private readonly List<TruthEvent> _truth = [];

    /// <summary>Starts the files.</summary>
    /// <param name="truth">Takes truth; closed.</param>
    /// <param name="expected">Takes the answers; closed.</param>
    /// <param name="format">Format of the stream.</param>
    public CaseRows(Stream truth, Stream expected, StreamFormat format)
    {
        _truthFile = new TruthCsvWriter(truth);
        _marksFile = new DetectionsCsvWriter(expected, format);
        _counts = new SampleCounts(format);
    }

    /// <summary>Every row of truth.</summary>
    public IReadOnlyList<TruthEvent> Truth => _truth;

    /// <summary>Samples that came, by channel.</summary>
    public IReadOnlyList<long> SampleCounts => [.. _counts.Rows.Select(r => r.Came)];

    /// <inheritdoc/>
    public void OnBlock(SampleBlock block) => _counts.OnBlock(block);

    /// <inheritdoc/>
    public void OnTruth(in TruthEvent truth)
    {
        _truth.Add(truth);
        _truthFile.Write(truth);
    }

    /// <inheritdoc/>
    public void OnMark(in Mark mark) => _marksFile.Write(mark);

    /// <summary>Finishes the files.</summary>
    public void Dispose()
    {
        _truthFile.Dispose();
        _marksFile.Dispose();
    }
}
