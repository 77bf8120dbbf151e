// SPDX-License-Identifier: MIT
using SensorSim.Reports.Figures;

namespace SensorSim.Reports.StudyReports;

/// <summary>A picture of the report: what its files are called, what draws it, what is said under it.</summary>
/// <param name="Name">Name of its files, without ending.</param>
/// <param name="Bytes">Draws it.</param>
/// <param name="Captions">Sentences under it, the definitions used among them.</param>
internal sealed record StudyFigure(string Name, Func<FigureFormat, byte[]> Bytes, IReadOnlyList<string> Captions);
