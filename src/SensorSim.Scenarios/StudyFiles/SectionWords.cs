// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.StudyFiles;

/// <summary>What messages call a section, and the keys that it may hold.</summary>
/// <param name="File">What its file is, in a word: study.</param>
/// <param name="Name">Its name.</param>
/// <param name="Shown">Its name with the brackets that a file gives it.</param>
/// <param name="Keys">Its keys.</param>
internal sealed record SectionWords(string File, string Name, string Shown, IReadOnlyList<KeyDefinition> Keys);
