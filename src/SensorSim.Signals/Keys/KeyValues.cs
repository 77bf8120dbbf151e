// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Keys;

/// <summary>The values that a scenario gives to knobs; a knob that it does not mention has its default.</summary>
/// <remarks>Values are checked where they are read from a file; here only what is in range is accepted.</remarks>
public sealed class KeyValues
{
    private readonly Dictionary<string, object> _values = new(StringComparer.Ordinal);

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

        return copy;
    }
}
