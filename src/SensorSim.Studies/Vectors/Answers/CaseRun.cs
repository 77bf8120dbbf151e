// SPDX-License-Identifier: MIT
using SensorSim.Files.Rows;
using SensorSim.Files.VectorSets;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Identity;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;
using SensorSim.Studies.Vectors.Sets;

namespace SensorSim.Studies.Vectors.Answers;

/// <summary>A detector's run over the stream of a case.</summary>
/// <param name="Answers">What it answered.</param>
/// <param name="Outcome">How the run ended.</param>
public sealed record CaseRun(CaseFile Answers, RunOutcome Outcome)
{
    /// <summary>Runs a detector on a case.</summary>
    /// <param name="planned">The case.</param>
    /// <param name="detector">The detector, not started; not disposed of.</param>
    /// <param name="cancellation">Ends the run.</param>
    /// <exception cref="NotSupportedException">The detector cannot work on the stream.</exception>
    public static CaseRun Of(PlannedCase planned, IDetector detector, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(planned);
        ArgumentNullException.ThrowIfNull(detector);
        IToldStream stream = planned.Scenario.OpenStream();
        using var text = new MemoryStream();
        using var sink = new MarkSink(text, stream.Format);
        RunOutcome outcome = new Runner(stream, stream.Truth, detector, scorer: null, sink).Run(progress: null, cancellation);
        byte[] written = sink.Complete();

        // Through the file's own text, so that a run and its file are judged alike.
        using var reader = new AnswerCsvReader(new MemoryStream(written), planned.Name);
        return new CaseRun(new CaseFile(outcome.DetectorName, reader.Columns, [.. reader.ReadAll()]) { Sha256 = Sha256Sum.Of(written) }, outcome);
    }

    private sealed class MarkSink : IRunSink, IDisposable
    {
        private readonly MemoryStream _text;
        private readonly DetectionsCsvWriter _writer;

        public MarkSink(MemoryStream text, StreamFormat format)
        {
            _text = text;
            _writer = new DetectionsCsvWriter(text, format);
        }

        public void OnBlock(SampleBlock block)
        {
            // The samples are not kept.
        }

        public void OnTruth(in TruthEvent truth)
        {
            // Truth has become windows of acceptance already.
        }

        public void OnMark(in Mark mark) => _writer.Write(mark);

        public byte[] Complete()
        {
            Dispose();
            return _text.ToArray();
        }

        public void Dispose() => _writer.Dispose();
    }
}
