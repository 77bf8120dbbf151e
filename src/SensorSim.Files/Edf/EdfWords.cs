// SPDX-License-Identifier: MIT
using System.Text;
using SensorSim.Files.Rows;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Edf;

/// <summary>The words of an annotation, one after the other; takes nothing from the heap, since a day of beats has millions of them.</summary>
/// <param name="text">The text.</param>
/// <param name="between">What stands between two words; two of it have an empty word between them.</param>
internal ref struct EdfWords(ReadOnlySpan<byte> text, byte between = (byte)' ')
{
    private static readonly byte[][] s_channels = [.. ChannelNames.All.Select(Encoding.ASCII.GetBytes)];
    private static readonly byte[][] s_kinds = [.. MarkKinds.All.Select(k => Encoding.ASCII.GetBytes(k.Text))];
    private static readonly byte[][] s_classes = [.. TruthCsv.Classes.Select(Encoding.ASCII.GetBytes)];
    private ReadOnlySpan<byte> _rest = text;
    private bool _isOver;

    /// <summary>How many words are left.</summary>
    public readonly int Left => _isOver ? 0 : _rest.Count(between) + 1;

    /// <summary>What follows the words that were taken.</summary>
    public readonly ReadOnlySpan<byte> Rest => _rest;

    /// <summary>The next word; empty when there is none.</summary>
    public ReadOnlySpan<byte> Next()
    {
        int length = _rest.IndexOf(between);
        ReadOnlySpan<byte> word = length < 0 ? _rest : _rest[..length];
        _isOver = length < 0;
        _rest = length < 0 ? default : _rest[(length + 1)..];
        return word;
    }

    /// <summary>Whether the next word is a certain one.</summary>
    public bool Takes(ReadOnlySpan<byte> word) => Next().SequenceEqual(word);

    /// <summary>Whether the next word is a channel.</summary>
    public bool TryChannel(out ChannelName channel)
    {
        int index = IndexOf(s_channels, Next());
        channel = (ChannelName)Math.Max(0, index);
        return index >= 0;
    }

    /// <summary>Whether the next word is a kind of mark.</summary>
    public bool TryKind(out MarkKind kind)
    {
        int index = IndexOf(s_kinds, Next());
        kind = (MarkKind)Math.Max(0, index);
        return index >= 0;
    }

    /// <summary>The class of a beat by its word.</summary>
    public static bool TryClass(ReadOnlySpan<byte> word, out BeatClass beatClass)
    {
        int index = IndexOf(s_classes, word);
        beatClass = (BeatClass)Math.Max(0, index);
        return index >= 0;
    }

    private static int IndexOf(byte[][] words, ReadOnlySpan<byte> word)
    {
        for (int i = 0; i < words.Length; i++)
        {
            if (word.SequenceEqual(words[i]))
            {
                return i;
            }
        }

        return -1;
    }
}
