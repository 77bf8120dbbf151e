// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Expectations;

/// <summary>A mark that two detectors gave differently on the same stream, or only one of them gave.</summary>
/// <param name="Expected">What the library gave; null when it gave none.</param>
/// <param name="Given">What the detector under test gave; null when it gave none.</param>
public sealed record MarkDifference(Mark? Expected, Mark? Given)
{
    /// <summary>Tick at which the first of the two was decided.</summary>
    public long DecidedTick => Math.Min(Expected?.EmittedTick ?? long.MaxValue, Given?.EmittedTick ?? long.MaxValue);

    /// <summary>The library's mark, or the other one where it gave none.</summary>
    public Mark Shown => Expected ?? Given!.Value;

    /// <summary>Time of the mark [s], nominal device time.</summary>
    /// <param name="format">Format of the stream.</param>
    public double TimeS(StreamFormat format)
    {
        ArgumentNullException.ThrowIfNull(format);
        return format.DeviceTimeNs(Shown.Channel, Shown.Sample, Shown.Fraction256) * 1e-9;
    }

    /// <summary>The fields that differ, with both values as text: the library's first. All fields where only one gave the mark.</summary>
    public IReadOnlyList<(string Field, string Expected, string Given)> Fields =>
    [
        .. s_fields
            .Select(f => (f.Name, Expected is Mark a ? f.Text(a) : "-", Given is Mark b ? f.Text(b) : "-"))
            .Where(f => f.Item2 != f.Item3),
    ];

    /// <summary>One sentence: which mark, when, and what differs.</summary>
    /// <param name="format">Format of the stream.</param>
    public string Sentence(StreamFormat format)
    {
        ArgumentNullException.ThrowIfNull(format);
        string mark = string.Create(
            CultureInfo.InvariantCulture, $"{Shown.Kind.Text()} in {format.Channels[Shown.Channel].Name.Text()} at {TimeS(format):0.000###} s (sample {Shown.Sample}, decided at {format.Clock.Seconds(DecidedTick):0.000} s)");
        if (Given is null)
        {
            return $"{mark}: the library gave it, the detector did not";
        }

        return Expected is null
            ? $"{mark}: the detector gave it, the library did not"
            : $"{mark}: {string.Join(", ", Fields.Select(f => $"{f.Field} is {f.Given}, the library's {f.Expected}"))}";
    }

    private static readonly (string Name, Func<Mark, string> Text)[] s_fields =
    [
        ("sample", m => Text(m.Sample)),
        ("fraction_256", m => Text(m.Fraction256)),
        ("value_milli", m => m.HasValue ? Text(m.ValueMilli) : "none"),
        ("quality", m => Text(m.Quality)),
        ("emitted_tick", m => Text(m.EmittedTick)),
        ("paired_channel", m => m.PairedChannel == Mark.None ? "none" : Text(m.PairedChannel)),
        ("paired_sample", m => m.PairedChannel == Mark.None ? "none" : Text(m.PairedSample)),
        ("paired_fraction_256", m => m.PairedChannel == Mark.None ? "none" : Text(m.PairedFraction256)),
        ("window_samples", m => Text(m.WindowSamples)),
    ];

    private static string Text(long value) => value.ToString(CultureInfo.InvariantCulture);
}
