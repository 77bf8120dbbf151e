// SPDX-License-Identifier: MIT
using System.Collections.Concurrent;
using SensorSim.Signals.Courses;

namespace SensorSim.Signals.Keys;

/// <summary>The values that a scenario gives to knobs; a knob that it does not mention has its default.</summary>
/// <remarks>
/// Values are checked where they are read from a file; here only what is in range is accepted. A live knob may also have changes over
/// time; <see cref="Course(NumberKey)"/> gives its whole course, the indexers its value before the first change. Once nothing sets values any more,
/// safe for several threads.
/// </remarks>
public sealed class KeyValues
{
    private readonly Dictionary<string, object> _values = new(StringComparer.Ordinal);
    private readonly Dictionary<string, object> _changes = new(StringComparer.Ordinal);
    private readonly Dictionary<string, object> _attached = new(StringComparer.Ordinal);

    // What follows from the values alone, by knob or type: made once for all streams of a scenario, whatever their seed.
    private readonly ConcurrentDictionary<object, object> _made = new(ReferenceEqualityComparer.Instance);

    /// <summary>Gives a number to a knob.</summary>
    /// <param name="key">The knob.</param>
    /// <param name="value">A finite value within the knob's range.</param>
    /// <exception cref="ArgumentOutOfRangeException">The value is not allowed; the message says what is.</exception>
    /// <returns>This object.</returns>
    public KeyValues Set(NumberKey key, double value)
    {
        ArgumentNullException.ThrowIfNull(key);
        if (!(value >= key.Minimum && value <= key.Maximum) || (key.IsWhole && value != Math.Truncate(value)))
        {
            throw new ArgumentOutOfRangeException(nameof(value), value, $"{key.Name} must be {key.RangeText} {key.Unit}".TrimEnd() + ".");
        }

        _values[key.Name] = value;
        _made.Clear();
        return this;
    }

    /// <summary>Gives a word to a knob.</summary>
    /// <param name="key">The knob.</param>
    /// <param name="value">One of the knob's choices.</param>
    /// <exception cref="ArgumentOutOfRangeException">The word is not among the choices; the message lists them.</exception>
    /// <returns>This object.</returns>
    public KeyValues Set(ChoiceKey key, string value)
    {
        ArgumentNullException.ThrowIfNull(key);
        if (!key.Choices.Contains(value, StringComparer.Ordinal))
        {
            throw new ArgumentOutOfRangeException(nameof(value), value, $"{key.Name} must be one of {key.RangeText}.");
        }

        _values[key.Name] = value;
        _made.Clear();
        return this;
    }

    /// <summary>Gives text to a key.</summary>
    /// <param name="key">The key.</param>
    /// <param name="value">Text no longer than the key allows.</param>
    /// <exception cref="ArgumentOutOfRangeException">The text is too long.</exception>
    /// <returns>This object.</returns>
    public KeyValues Set(TextKey key, string value)
    {
        ArgumentNullException.ThrowIfNull(key);
        ArgumentNullException.ThrowIfNull(value);
        if (value.Length > key.MaximumLength)
        {
            throw new ArgumentOutOfRangeException(nameof(value), value, $"{key.Name} must be {key.RangeText}.");
        }

        _values[key.Name] = value;
        _made.Clear();
        return this;
    }

    /// <summary>The number a knob has.</summary>
    /// <param name="key">The knob.</param>
    public double this[NumberKey key] => _values.TryGetValue(key.Name, out object? value) ? (double)value : key.Default;

    /// <summary>The word a knob has.</summary>
    /// <param name="key">The knob.</param>
    public string this[ChoiceKey key] => _values.TryGetValue(key.Name, out object? value) ? (string)value : key.Default;

    /// <summary>The text a key has.</summary>
    /// <param name="key">The key.</param>
    public string this[TextKey key] => _values.TryGetValue(key.Name, out object? value) ? (string)value : "";

    /// <summary>Lets a live knob change over time.</summary>
    /// <param name="key">The knob.</param>
    /// <param name="changes">Its changes, targets within the knob's range.</param>
    /// <param name="oscillations">Sines on top.</param>
    /// <exception cref="ArgumentException">The knob is fixed, or a target lies outside of its range.</exception>
    /// <returns>This object.</returns>
    public KeyValues SetChanges(NumberKey key, IReadOnlyList<CourseChange> changes, IReadOnlyList<Oscillation> oscillations)
    {
        ArgumentNullException.ThrowIfNull(key);
        ArgumentNullException.ThrowIfNull(changes);
        ArgumentNullException.ThrowIfNull(oscillations);
        if (!key.IsLive || changes.Any(c => !(c.Target >= key.Minimum && c.Target <= key.Maximum)))
        {
            throw new ArgumentException($"{key.Name} must be live, and its targets {key.RangeText} {key.Unit}".TrimEnd() + ".", nameof(changes));
        }

        _changes[key.Name] = (changes, oscillations);
        _made.Clear();
        return this;
    }

    /// <summary>Lets a live choice change over time.</summary>
    /// <param name="key">The knob.</param>
    /// <param name="changes">Times [s] and words.</param>
    /// <exception cref="ArgumentException">The knob is fixed, or a word is not among its choices.</exception>
    /// <returns>This object.</returns>
    public KeyValues SetChanges(ChoiceKey key, IReadOnlyList<(double AtSeconds, string Word)> changes)
    {
        ArgumentNullException.ThrowIfNull(key);
        ArgumentNullException.ThrowIfNull(changes);
        if (!key.IsLive || changes.Any(c => !key.Choices.Contains(c.Word, StringComparer.Ordinal)))
        {
            throw new ArgumentException($"{key.Name} must be live, and its words among {key.RangeText}.", nameof(changes));
        }

        _changes[key.Name] = changes;
        _made.Clear();
        return this;
    }

    /// <summary>The course of a knob over time; it stays at its value when nothing changes it.</summary>
    /// <param name="key">The knob.</param>
    public Course Course(NumberKey key)
    {
        ArgumentNullException.ThrowIfNull(key);
        if (_made.TryGetValue(key, out object? known))
        {
            return (Course)known;
        }

        return (Course)_made.GetOrAdd(
            key,
            _changes.TryGetValue(key.Name, out object? found) && found is (IReadOnlyList<CourseChange> changes, IReadOnlyList<Oscillation> oscillations)
                ? new Course(this[key], changes, oscillations)
                : new Course(this[key]));
    }

    /// <summary>The course of a choice over time.</summary>
    /// <param name="key">The knob.</param>
    public ChoiceCourse Course(ChoiceKey key)
    {
        ArgumentNullException.ThrowIfNull(key);
        return new ChoiceCourse(
            this[key],
            _changes.TryGetValue(key.Name, out object? found) ? (IReadOnlyList<(double AtSeconds, string Word)>)found : []);
    }

    /// <summary>What a model computes from these values alone, made when it is first asked for: streams of other seeds share it.</summary>
    /// <typeparam name="T">Its type, one of which is kept; it never changes and is safe for several threads.</typeparam>
    /// <param name="make">Makes it from the values.</param>
    public T Made<T>(Func<KeyValues, T> make)
        where T : class
    {
        ArgumentNullException.ThrowIfNull(make);
        return (T)(_made.TryGetValue(typeof(T), out object? known) ? known : _made.GetOrAdd(typeof(T), make(this)));
    }

    /// <summary>Whether a knob changes over time.</summary>
    /// <param name="key">The knob.</param>
    public bool IsChanging(KeyDefinition key)
    {
        ArgumentNullException.ThrowIfNull(key);
        return _changes.ContainsKey(key.Name);
    }

    /// <summary>Keeps what was read for a key that names a file or a list; the reader checks it, the model takes it.</summary>
    /// <param name="key">The key.</param>
    /// <param name="content">What was read; never changed afterwards.</param>
    /// <returns>This object.</returns>
    public KeyValues Attach(TextKey key, object content)
    {
        ArgumentNullException.ThrowIfNull(key);
        ArgumentNullException.ThrowIfNull(content);
        _attached[key.Name] = content;
        _made.Clear();
        return this;
    }

    /// <summary>What was read for a key that names a file or a list, or null.</summary>
    /// <typeparam name="T">What the model expects.</typeparam>
    /// <param name="key">The key.</param>
    public T? Attached<T>(TextKey key)
        where T : class
    {
        ArgumentNullException.ThrowIfNull(key);
        return _attached.GetValueOrDefault(key.Name) as T;
    }

    /// <summary>Whether the scenario gave the knob a value itself.</summary>
    /// <param name="key">The knob.</param>
    public bool IsSet(KeyDefinition key)
    {
        ArgumentNullException.ThrowIfNull(key);
        return _values.ContainsKey(key.Name);
    }

    /// <summary>A copy whose later changes do not touch this object.</summary>
    public KeyValues Copy()
    {
        var copy = new KeyValues();
        foreach ((string name, object value) in _values)
        {
            copy._values[name] = value;
        }

        foreach ((string name, object value) in _changes)
        {
            copy._changes[name] = value;
        }

        foreach ((string name, object value) in _attached)
        {
            copy._attached[name] = value;
        }

        return copy;
    }
}
