// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.Expectations;

/// <summary>Compares the marks of a detector under test with those that the library gives on the same samples, field by field, while they come.</summary>
/// <remarks>
/// The library runs beside the detector and is handed the same blocks. How marks are paired: <see cref="MarkPairs"/>; in which order marks
/// of one block come makes no difference. Constant memory; the samples of the latest seconds are kept, so that the first difference can be shown.
/// </remarks>
public sealed class ExactComparison : IRunSink, IDisposable
{
    // Before and after the difference, as shown; a difference may take 12 s to be known.
    private const int SecondsBefore = 4;
    private const int SecondsAfter = 2;
    private const int SecondsKept = 24;

    private readonly StreamFormat _format;
    private readonly IDetector _expected;
    private readonly DetectorOutput _output = new();
    private readonly MarkPairs _pairs;
    private readonly RecentSamples _samples;
    private readonly RecentMarks _recentExpected = new();
    private readonly RecentMarks _recentGiven = new();
    private bool _isSceneOpen;

    /// <summary>Starts the library on a stream.</summary>
    /// <param name="format">Format of the stream.</param>
    /// <param name="expected">The library, with the same calibration and constants as the detector under test has; disposed of with this.</param>
    /// <exception cref="NotSupportedException">The library cannot work on such a stream.</exception>
    public ExactComparison(StreamFormat format, IDetector expected)
    {
        ArgumentNullException.ThrowIfNull(format);
        ArgumentNullException.ThrowIfNull(expected);
        _format = format;
        _expected = expected;
        _pairs = new MarkPairs(format, OnDifference);
        _samples = new RecentSamples(format, SecondsKept);
        _expected.Start(format);
    }

    /// <summary>Name and version of the library.</summary>
    public string ExpectedName => _expected.Name;

    /// <summary>Marks that are the same in every field.</summary>
    public long EqualCount => _pairs.EqualCount;

    /// <summary>Marks of the same thing that differ in a field.</summary>
    public long DifferentCount => _pairs.DifferentCount;

    /// <summary>Marks that only the library gave.</summary>
    public long OnlyExpectedCount => _pairs.OnlyExpectedCount;

    /// <summary>Marks that only the detector under test gave.</summary>
    public long OnlyGivenCount => _pairs.OnlyGivenCount;

    /// <summary>Whether every mark of one is a mark of the other; known after <see cref="Complete"/>.</summary>
    public bool IsExact => DifferentCount + OnlyExpectedCount + OnlyGivenCount == 0;

    /// <summary>The difference that was decided first; null while there is none.</summary>
    public MarkDifference? First { get; private set; }

    /// <summary>The samples around <see cref="First"/>; null while there is none.</summary>
    public DifferenceScene? Scene { get; private set; }

    /// <inheritdoc/>
    public void OnBlock(SampleBlock block)
    {
        ArgumentNullException.ThrowIfNull(block);
        _pairs.Settle(block.BeginTick);
        _samples.Add(block);
        KeepScene(isLast: false);
        _expected.Process(block, _output);
        TakeExpected();
    }

    /// <inheritdoc/>
    public void OnTruth(in TruthEvent truth)
    {
        // Right or wrong is not asked here, only whether both say the same.
    }

    /// <inheritdoc/>
    public void OnMark(in Mark mark)
    {
        _pairs.AddGiven(mark);
        _recentGiven.Add(mark);
    }

    /// <summary>The stream has ended and the detector under test has given its last mark: compares the rest.</summary>
    public void Complete()
    {
        _expected.Flush(_output);
        TakeExpected();
        _pairs.Settle(long.MaxValue);
        KeepScene(isLast: true);
    }

    /// <inheritdoc/>
    public void Dispose() => _expected.Dispose();

    private void TakeExpected()
    {
        while (_output.Marks.TryTake(out Mark mark))
        {
            _pairs.AddExpected(mark);
            _recentExpected.Add(mark);
        }

        _output.Requests.Clear();
    }

    private void OnDifference(MarkDifference difference)
    {
        if (First is null || difference.DecidedTick < First.DecidedTick)
        {
            First = difference;
            _isSceneOpen = true;
        }
    }

    private void KeepScene(bool isLast)
    {
        if (!_isSceneOpen || First is null)
        {
            return;
        }

        double at = First.TimeS(_format);
        double begin = Math.Max(0, at - SecondsBefore);
        double end = at + SecondsAfter;
        if (!isLast && _format.Clock.Seconds(_samples.EndTick) < end)
        {
            return;
        }

        _isSceneOpen = false;
        Mark shown = First.Shown;
        int[] channels = shown.PairedChannel == Mark.None || shown.PairedChannel == shown.Channel
            ? [shown.Channel] : [.. new[] { shown.PairedChannel, shown.Channel }.Order()];
        long[] firsts = [.. channels.Select(c => _format.FirstSampleAtOrAfter(c, _format.Clock.TickAtOrAfter(begin)))];
        Scene = new DifferenceScene
        {
            Difference = First,
            Format = _format,
            BeginS = begin,
            EndS = end,
            Channels = channels,
            FirstSamples = firsts,
            Values = [.. channels.Select((c, i) => _samples.Values(c, firsts[i], _format.FirstSampleAtOrAfter(c, _format.Clock.TickAtOrAfter(end))))],
            Expected = _recentExpected.Where(m => IsInside(m, channels, begin, end)),
            Given = _recentGiven.Where(m => IsInside(m, channels, begin, end)),
        };
    }

    private bool IsInside(Mark mark, int[] channels, double begin, double end)
    {
        double at = _format.DeviceTimeNs(mark.Channel, mark.Sample, mark.Fraction256) * 1e-9;
        return Array.IndexOf(channels, mark.Channel) >= 0 && at >= begin && at < end;
    }
}
