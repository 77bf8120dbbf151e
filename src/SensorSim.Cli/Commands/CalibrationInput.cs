// SPDX-License-Identifier: MIT
using SensorSim.Detectors;
using SensorSim.Scenarios.Calibrations;

namespace SensorSim.Cli.Commands;

/// <summary>Reads the calibration that a verb was given.</summary>
internal static class CalibrationInput
{
    /// <summary>Reads it and lets the library see it; null without one.</summary>
    public static CalibrationFile? Read(string? path)
    {
        CalibrationFile? file = path is null ? null : CalibrationReader.ReadFile(path);
        return file is not null && CalibrationCheck.Refusal(file.Calibration) is string sentence ? throw file.Refused(sentence) : file;
    }
}
