// SPDX-License-Identifier: MIT
using SensorSim.Cli.Options;
using SensorSim.Detectors;
using SensorSim.Detectors.Boards;
using SensorSim.Detectors.Choices;
using SensorSim.Signals.Detectors;
using SensorSim.Studies.Running;
using SensorSim.Studies.Vectors.Answers;
using SensorSim.Studies.Vectors.Sets;

namespace SensorSim.Cli.Commands;

/// <summary>Where the answers to a set come from: a file, a detector that is run on every case, or a board.</summary>
internal sealed class VectorAnswers
{
    private readonly IReadOnlyDictionary<string, CaseFile>? _files;
    private readonly DetectorChoice? _choice;
    private readonly LineChoice? _line;
    private readonly CancellationToken _cancellation;

    private VectorAnswers(IReadOnlyDictionary<string, CaseFile>? files, DetectorChoice? choice, LineChoice? line, string name, CancellationToken cancellation)
    {
        _files = files;
        _choice = choice;
        _line = line;
        Name = name;
        _cancellation = cancellation;
    }

    /// <summary>Whose answers: the path, or name and version of the detector once it has run.</summary>
    public string Name { get; private set; }

    /// <summary>Whether they are those of the library.</summary>
    public bool IsLibrary => _files is null && _choice is null && _line is null;

    /// <summary>Takes the one source that is named; none: the library.</summary>
    /// <exception cref="UsageException">More than one is named, or a detector cannot be run on the set.</exception>
    public static VectorAnswers Of(VectorSet set, string? path, DetectorChoice? choice, LineChoice? line, CancellationToken cancellation)
    {
        if ((path is null ? 0 : 1) + (choice is null ? 0 : 1) + (line is null ? 0 : 1) > 1)
        {
            throw new UsageException("--answers, a detector of your own and --link each say whose answers they are; keep one");
        }

        if (path is null && !set.CanBeMadeHere)
        {
            throw new UsageException(FormattableString.Invariant(
                $"the set was made by generator version {set.Manifest.GeneratorVersion}, whose samples this program cannot make; run the detector on the samples in the set, and give --answers"));
        }

        return new VectorAnswers(path is null ? null : AnswersReader.Read(path, [.. set.Cases.Select(c => c.Name)], AnswersReader.Most(set.Cases.Select(c => c.Facts.DurationS))), choice, line, path ?? "", cancellation);
    }

    /// <summary>The answers to a case, or none and why; a detector that failed has both.</summary>
    public (CaseFile? Answers, string Fault) To(SetCase own)
    {
        if (_files is not null)
        {
            return _files.TryGetValue(own.Name, out CaseFile? file) ? (file, "") : (null, Unanswered(own.Name));
        }

        DetectorCalibration? calibration = own.Planned.Calibration?.Calibration;
        using IDetectorFactory? factory = Factory(calibration);
        using IDetector detector = factory?.Create(new Dictionary<string, double>()) ?? new LibraryDetector(calibration);
        CaseRun run;
        try
        {
            run = CaseRun.Of(own.Planned, detector, _cancellation);
        }
        catch (NotSupportedException e)
        {
            // A detector that cannot take the signals or the calibration of one case may still answer the others.
            return (null, new string([.. e.Message.Select(c => char.IsControl(c) ? ' ' : c)]));
        }

        Name = run.Outcome.DetectorName;

        // A silent detector has answered nothing, which may be right; the requirements say.
        bool hasFailed = run.Outcome.Verdict is not (Verdict.Answered or Verdict.Silent);
        return (run.Answers, hasFailed ? run.Outcome.VerdictReason : "");
    }

    private static string Unanswered(string name) =>
        $"no answers to this case were given; where it was run and nothing answered, give a row with {name} in the column case and nothing else, or {name}.csv with the header alone";

    // A detector in a file cannot be told a calibration; what it lacks because of it, the requirements say.
    private IDetectorFactory? Factory(DetectorCalibration? calibration)
    {
        if (_line is not null)
        {
            return new BoardFactory(_line.Open, new BoardOptions { Calibration = calibration });
        }

        return _choice is null ? null
            : DetectorFactories.Open(_choice.Adapter == DetectorAdapter.Process ? _choice with { Calibration = calibration } : _choice);
    }
}
