// SPDX-License-Identifier: MIT
using SensorSim.Detectors;
using SensorSim.Detectors.Choices;
using SensorSim.Detectors.Control;
using SensorSim.Scenarios.Calibrations;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.StudyFiles;
using SensorSim.Signals.Detectors;

namespace SensorSim.Studies.Plans;

/// <summary>From what a study says of its detectors to choices.</summary>
internal static class DetectorReader
{
    /// <summary>The detectors, in the order of the file.</summary>
    /// <param name="file">The study.</param>
    /// <param name="mistakes">Takes what is wrong.</param>
    public static IReadOnlyList<DetectorChoice> Read(StudyFile file, List<ScenarioMistake> mistakes) =>
        [.. file.Detectors.Select((d, i) => Read(file, d, i, mistakes))];

    private static DetectorChoice Read(StudyFile file, StudyDetector detector, int index, List<ScenarioMistake> mistakes)
    {
        if (detector.Control.Length > 0 && !Controls.All.Contains(detector.Control, StringComparer.Ordinal))
        {
            mistakes.Add(file.Mistake(
                file.PlaceOf(DetectorKeys.Control, index),
                $"detector.control = \"{detector.Control}\" must be one of \"{string.Join("\", \"", Controls.All)}\"; the nearest is \"{NearestName.Find(detector.Control, Controls.All)}\""));
        }

        string path = detector.File.Length == 0 ? "" : FullPath(file, detector.File);
        if (path.Length > 0 && !File.Exists(path))
        {
            mistakes.Add(file.Mistake(
                file.PlaceOf(DetectorKeys.File, index),
                $"detector.file = \"{detector.File}\" is no file; give the path of a detector, from the study's folder on"));
        }

        return new DetectorChoice
        {
            Label = detector.Label,
            Adapter = detector.Adapter switch
            {
                "assembly" => DetectorAdapter.Assembly,
                "c_library" => DetectorAdapter.CLibrary,
                "process" => DetectorAdapter.Process,
                _ => DetectorAdapter.Library,
            },
            Path = path,
            Command = detector.Command,
            Folder = detector.Command.Count == 0 ? "" : FullPath(file, "."),
            ClassName = detector.ClassName,
            IsInProcess = detector.IsInProcess,
            HangS = detector.HangS,
            Constants = detector.Constants,
            Calibration = ReadCalibration(file, detector, index, mistakes),
            Control = detector.Control,
            IsLoopClosed = detector.IsLoopClosed,
            LatencyMs = detector.LatencyMs,
        };
    }

    private static DetectorCalibration? ReadCalibration(StudyFile file, StudyDetector detector, int index, List<ScenarioMistake> mistakes)
    {
        if (detector.Calibration.Length == 0)
        {
            return null;
        }

        string path = Path.Combine(Path.GetDirectoryName(file.File) ?? "", detector.Calibration);
        if (!File.Exists(path))
        {
            mistakes.Add(file.Mistake(
                file.PlaceOf(DetectorKeys.Calibration, index),
                $"detector.calibration = \"{detector.Calibration}\" is no file; give the path of a calibration (TOML), from the study's folder on"));
            return null;
        }

        try
        {
            CalibrationFile read = CalibrationReader.ReadFile(path);
            return detector.Adapter == DetectorKeys.Adapter.Default && CalibrationCheck.Refusal(read.Calibration) is string sentence
                ? throw read.Refused(sentence)
                : read.Calibration;
        }
        catch (ScenarioException e)
        {
            mistakes.AddRange(e.Mistakes);
            return null;
        }
    }

    private static string FullPath(StudyFile file, string path) => Path.GetFullPath(Path.Combine(Path.GetDirectoryName(file.File) ?? "", path));
}
