// SPDX-License-Identifier: MIT
using SensorSim.Cli.Options;
using SensorSim.Cli.Output;
using SensorSim.Detectors;
using SensorSim.Detectors.Probing;
using SensorSim.Files.Output;
using SensorSim.FixedPoint;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Streams;

namespace SensorSim.Cli.Commands;

/// <summary>The library with what the user wants to see of its inside.</summary>
internal sealed class StageWatch : IDisposable
{
    private readonly TraceFiles? _traces;

    public StageWatch(StageChoice choice, DetectorCalibration? calibration, OutputFolder? folder, StreamFormat format)
    {
        if (!choice.IsAny)
        {
            Detector = new LibraryDetector(calibration);
            return;
        }

        var watched = new ProbedDetector(calibration);
        Detector = watched;
        if (choice.IsAudited)
        {
            Audit = new StageAudit();
            watched.Probe.Audit = Audit;
        }

        if (choice.Traced.Count > 0)
        {
            _traces = new TraceFiles(folder!, format, choice.Traced);
            watched.Probe.Trace(_traces, choice.Traced);
        }
    }

    /// <summary>The detector to run.</summary>
    public IDetector Detector { get; }

    /// <summary>The audit, if wanted.</summary>
    public StageAudit? Audit { get; }

    /// <summary>Closes the files, before the folder is committed.</summary>
    public void Complete() => _traces?.Complete();

    public void Dispose()
    {
        Detector.Dispose();
        _traces?.Dispose();
    }
}
