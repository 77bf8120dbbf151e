// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;
using SensorSim.Signals.Detectors;

namespace SensorSim.Scenarios.Calibrations;

/// <summary>A calibration file, read and sound as far as numbers go.</summary>
/// <param name="Reference">Path as the user gave it and hash of the content.</param>
/// <param name="Title">Its title; empty when it has none.</param>
/// <param name="Calibration">What it says.</param>
/// <param name="CurveLine">Line that the curve comes from: of the last [[cuff]], or of the slope; 0 without one.</param>
/// <param name="CurveColumn">Its column.</param>
public sealed record CalibrationFile(ReferencedFile Reference, string Title, DetectorCalibration Calibration, int CurveLine, int CurveColumn)
{
    /// <summary>What to throw when a detector refuses the curve.</summary>
    /// <param name="sentence">Why.</param>
    public ScenarioException Refused(string sentence) => new([new ScenarioMistake(Reference.Path, CurveLine, CurveColumn, sentence)]);
}
