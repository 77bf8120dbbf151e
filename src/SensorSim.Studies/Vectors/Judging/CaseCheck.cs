// SPDX-License-Identifier: MIT
using SensorSim.Files.Rows;
using SensorSim.Files.VectorSets;
using SensorSim.Scoring;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;
using SensorSim.Studies.Vectors.Sets;

namespace SensorSim.Studies.Vectors.Judging;

/// <summary>Holds a detector, or answers that are there already, against the acceptance of one case of a set.</summary>
/// <param name="Verdicts">A verdict for each requirement of the case, in the order of the plan.</param>
/// <param name="Outcome">How the detector behaved; null when nothing was run.</param>
public sealed record CaseCheck(IReadOnlyList<RequirementVerdict> Verdicts, RunOutcome? Outcome)
{
    /// <summary>Runs a detector on the stream of a case, made anew from its scenario, and judges it.</summary>
    /// <param name="setCase">The case.</param>
    /// <param name="detector">The detector; the caller disposes of it.</param>
    /// <param name="isOwnLibrary">Whether it is the library of this project, whose known deviations the plan lists.</param>
    /// <exception cref="SensorSim.Files.InputFileException">The windows of acceptance cannot be read.</exception>
    /// <exception cref="NotSupportedException">The detector cannot work on the stream.</exception>
    public static CaseCheck Run(SetCase setCase, IDetector detector, bool isOwnLibrary = false)
    {
        ArgumentNullException.ThrowIfNull(setCase);
        ArgumentNullException.ThrowIfNull(detector);
        IToldStream stream = setCase.Planned.Scenario.OpenStream();
        var marks = new TimedMarks(stream.Format);
        RunOutcome outcome = new Runner(stream, stream.Truth, detector, scorer: null, marks).Run();
        return Judged(setCase, marks.All, isOwnLibrary) with { Outcome = outcome };
    }

    /// <summary>Judges answers that are there already.</summary>
    /// <param name="setCase">The case.</param>
    /// <param name="marks">The answers, nominal device time.</param>
    /// <exception cref="SensorSim.Files.InputFileException">The windows of acceptance cannot be read.</exception>
    public static CaseCheck Of(SetCase setCase, IEnumerable<TimedMark> marks)
    {
        ArgumentNullException.ThrowIfNull(setCase);
        ArgumentNullException.ThrowIfNull(marks);
        return Judged(setCase, marks, isOwnLibrary: false);
    }

    private static CaseCheck Judged(SetCase setCase, IEnumerable<TimedMark> marks, bool isOwnLibrary)
    {
        using var reader = new AcceptanceCsvReader(setCase.AcceptancePath);
        return new CaseCheck(Judge.Case(setCase.Planned, [.. reader.ReadAll()], CaseAnswers.Of(marks), isOwnLibrary), null);
    }

    // A case is short: all its marks find room.
    private sealed class TimedMarks(StreamFormat format) : IRunSink
    {
        public List<TimedMark> All { get; } = [];

        public void OnBlock(SampleBlock block)
        {
            // Samples are the detector's.
        }

        public void OnTruth(in TruthEvent truth)
        {
            // Truth has become windows of acceptance already.
        }

        public void OnMark(in Mark mark) => All.Add(TimedMark.From(mark, format));
    }
}
