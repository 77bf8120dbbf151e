// SPDX-License-Identifier: MIT
using Tomlyn.Syntax;

namespace SensorSim.Scenarios.Reading;

/// <summary>Gathers the mistakes of one file.</summary>
internal sealed class MistakeList
{
    private readonly string _file;
    private readonly List<ScenarioMistake> _mistakes = [];

    public MistakeList(string file) => _file = file;

    /// <summary>Adds a mistake at a place; no place means the file as a whole.</summary>
    public void Add(SourceSpan? span, string message) => Add(span?.Start.Line ?? -1, span?.Start.Column ?? -1, message);

    /// <summary>Adds a mistake at a line and a column counted from 0; −1 means the file as a whole.</summary>
    public void Add(int line, int column, string message) =>
        _mistakes.Add(new ScenarioMistake(_file, line + 1, column + 1, TomlNames.WithoutControls(message)));

    /// <summary>Adds a mistake in a file that the scenario names, line and column counted from 1; 0 means as a whole.</summary>
    public void AddIn(string file, int line, int column, string message) =>
        _mistakes.Add(new ScenarioMistake(file, line, column, TomlNames.WithoutControls(message)));

    public void ThrowIfAny()
    {
        if (_mistakes.Count > 0)
        {
            throw ToException();
        }
    }

    public ScenarioException ToException() => new([.. _mistakes.OrderBy(m => m.File != _file).ThenBy(m => m.Line).ThenBy(m => m.Column)]);
}
