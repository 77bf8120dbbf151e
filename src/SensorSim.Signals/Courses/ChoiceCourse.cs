// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Courses;

/// <summary>The word that a choice knob has over time: a first word, then others from stated times on.</summary>
/// <remarks>Safe for several threads.</remarks>
public sealed class ChoiceCourse
{
    private readonly (double AtSeconds, string Word)[] _changes;

    /// <summary>Creates a course.</summary>
    /// <param name="first">Word before the first change.</param>
    /// <param name="changes">Times [s] and words; sorted here by time, of the same time the last one wins.</param>
    public ChoiceCourse(string first, IEnumerable<(double AtSeconds, string Word)> changes)
    {
        First = first;
        _changes = [.. changes.OrderBy(c => c.AtSeconds)];
    }

    /// <summary>Word before the first change.</summary>
    public string First { get; }

    /// <summary>The changes, in order of time.</summary>
    public IReadOnlyList<(double AtSeconds, string Word)> Changes => _changes;

    /// <summary>Whether the word never changes.</summary>
    public bool IsConstant => _changes.Length == 0;

    /// <summary>Every word that occurs, without repetition.</summary>
    public IEnumerable<string> Words => _changes.Select(c => c.Word).Prepend(First).Distinct(StringComparer.Ordinal);

    /// <summary>Number of the stretch that a time lies in: 0 before the first change.</summary>
    /// <param name="seconds">Time [s].</param>
    public int StretchAt(double seconds)
    {
        int stretch = 0;
        while (stretch < _changes.Length && _changes[stretch].AtSeconds <= seconds)
        {
            stretch++;
        }

        return stretch;
    }

    /// <summary>Word of a stretch.</summary>
    /// <param name="stretch">Number of the stretch, 0 to the number of changes.</param>
    public string Word(int stretch) => stretch == 0 ? First : _changes[stretch - 1].Word;

    /// <summary>Word at a time.</summary>
    /// <param name="seconds">Time [s].</param>
    public string Value(double seconds) => Word(StretchAt(seconds));
}
