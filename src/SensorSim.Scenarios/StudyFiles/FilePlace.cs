// SPDX-License-Identifier: MIT
namespace SensorSim.Scenarios.StudyFiles;

/// <summary>A place in a file.</summary>
/// <param name="Line">Line, from 1; 0 when the file as a whole is meant.</param>
/// <param name="Column">Column, from 1; 0 when the file as a whole is meant.</param>
public readonly record struct FilePlace(int Line, int Column);
