// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Reading;

/// <summary>A key and the value that it is to have: a number, or a word.</summary>
public readonly record struct KeyValue
{
    private readonly double _number;
    private readonly string? _word;

    /// <summary>Gives a key a number.</summary>
    /// <param name="key">The key.</param>
    /// <param name="number">Its value, within the key's range; whole if the key is.</param>
    /// <exception cref="ArgumentOutOfRangeException">The key cannot have it.</exception>
    public KeyValue(NumberKey key, double number)
    {
        ArgumentNullException.ThrowIfNull(key);
        if (!(number >= key.Minimum && number <= key.Maximum) || (key.IsWhole && number != Math.Truncate(number)))
        {
            throw new ArgumentOutOfRangeException(nameof(number), number, $"{key.Name} must be {key.RangeText}.");
        }

        Key = key;
        _number = number;
    }

    /// <summary>Gives a key a word.</summary>
    /// <param name="key">The key.</param>
    /// <param name="word">One of its words.</param>
    /// <exception cref="ArgumentOutOfRangeException">The key cannot have it.</exception>
    public KeyValue(ChoiceKey key, string word)
    {
        ArgumentNullException.ThrowIfNull(key);
        if (!key.Choices.Contains(word, StringComparer.Ordinal))
        {
            throw new ArgumentOutOfRangeException(nameof(word), word, $"{key.Name} must be one of {key.RangeText}.");
        }

        Key = key;
        _word = word;
    }

    /// <summary>The key.</summary>
    public KeyDefinition Key { get; }

    /// <summary>The number; null when the value is a word.</summary>
    public double? Number => _word is null ? _number : null;

    /// <summary>The word; null when the value is a number.</summary>
    public string? Word => _word;

    /// <summary>The value as TOML writes it: a number so that it reads back to the bit, or a word in quotes.</summary>
    public string Toml => _word is null ? _number.ToString("R", CultureInfo.InvariantCulture) : $"\"{_word}\"";

    /// <summary>The value as a table shows it.</summary>
    public string Text => _word ?? _number.ToString("R", CultureInfo.InvariantCulture);

    internal void SetIn(KeyValues values)
    {
        switch (Key)
        {
            case NumberKey number:
                values.Set(number, _number);
                break;
            case ChoiceKey choice:
                values.Set(choice, _word!);
                break;
            default:
                throw new InvalidOperationException("A value without a key.");
        }
    }
}
