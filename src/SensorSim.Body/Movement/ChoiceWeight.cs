// SPDX-License-Identifier: MIT
using SensorSim.Signals.Courses;

namespace SensorSim.Body.Movement;

/// <summary>How far a word of a live choice holds, 0 to 1: each change begins at its time and runs smoothly over some seconds.</summary>
/// <remarks>
/// The course of the word as 0 and 1, spread by a smooth kernel: changes that follow each other closely add, and the weights of all words
/// always sum to 1.
/// </remarks>
internal sealed class ChoiceWeight
{
    private readonly double _first;
    private readonly double _overSeconds;
    private readonly double[] _at;
    private readonly double[] _change;

    public ChoiceWeight(ChoiceCourse course, string word, double overSeconds)
    {
        _overSeconds = overSeconds;
        double Of(int stretch) => course.Word(stretch) == word ? 1 : 0;
        _first = Of(0);
        int[] steps = [.. Enumerable.Range(1, course.Changes.Count).Where(i => Of(i) != Of(i - 1))];
        _at = [.. steps.Select(i => course.Changes[i - 1].AtSeconds)];
        _change = [.. steps.Select(i => Of(i) - Of(i - 1))];
    }

    /// <summary>Whether the word never holds.</summary>
    public bool IsOff => _first == 0 && _at.Length == 0;

    /// <summary>A rise from 0 to 1 with flat ends.</summary>
    public static double Rise(double place) => place >= 1 ? 1 : place * place * (3 - (2 * place));

    /// <summary>The weight at a time.</summary>
    public double At(double seconds)
    {
        double weight = _first;
        for (int i = 0; i < _at.Length && _at[i] < seconds; i++)
        {
            weight += _change[i] * Rise((seconds - _at[i]) / _overSeconds);
        }

        return weight;
    }

    /// <summary>Whether the weight stays the same from one time to another, and which it is.</summary>
    public bool IsConstant(double beginSeconds, double endSeconds, out double weight)
    {
        weight = _first;
        for (int i = 0; i < _at.Length && _at[i] < endSeconds; i++)
        {
            if (_at[i] + _overSeconds > beginSeconds)
            {
                return false;
            }

            weight += _change[i];
        }

        return true;
    }
}
