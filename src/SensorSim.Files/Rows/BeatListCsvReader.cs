// SPDX-License-Identifier: MIT
using SensorSim.Files.Text;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Signals.Time;

namespace SensorSim.Files.Rows;

/// <summary>Reads a list of R peaks that somebody made for a recording, as truth on the ECG.</summary>
/// <remarks>
/// Columns in any order, others ignored: <c>sample</c> (counted from 0, needs a rate) or <c>time_s</c>; <c>label</c>
/// (<c>normal</c> or <c>wide</c>) and <c>confidence</c> (<c>high</c>, <c>medium</c>, <c>low</c>) may be missing or empty. A beat
/// that is not of high confidence is optional to find. Beats ascend in time.
/// </remarks>
public sealed class BeatListCsvReader : CsvRowReader<TruthEvent>
{
    private const int Sample = 0;
    private const int TimeS = 1;
    private const int LabelColumn = 2;
    private const int Confidence = 3;
    private static readonly string[] s_columns = ["sample", "time_s", "label", "confidence"];
    private readonly int? _rateHz;
    private readonly bool _usesSample;
    private long _count;
    private long _previousNs = -1;

    /// <summary>Opens a file.</summary>
    /// <param name="path">Path of the file.</param>
    /// <param name="rateHz">Sampling rate that <c>sample</c> counts in [Hz]; null to use <c>time_s</c>.</param>
    /// <exception cref="InputFileException">There is no such file, or its header is wrong.</exception>
    public BeatListCsvReader(string path, int? rateHz)
        : this(InputFiles.OpenRead(path), path, rateHz)
    {
    }

    /// <summary>Reads from a stream.</summary>
    /// <param name="stream">The text; closed with the reader.</param>
    /// <param name="fileName">Name in messages.</param>
    /// <param name="rateHz">Sampling rate that <c>sample</c> counts in [Hz]; null to use <c>time_s</c>.</param>
    /// <exception cref="InputFileException">The header is wrong.</exception>
    public BeatListCsvReader(Stream stream, string fileName, int? rateHz)
        : base(stream, fileName, [], s_columns, isStrict: false)
    {
        if (rateHz is int rate)
        {
            ArgumentOutOfRangeException.ThrowIfLessThan(rate, 1, nameof(rateHz));
        }

        _rateHz = rateHz;
        _usesSample = rateHz is not null && Table.Has(Sample);
        if (!_usesSample && !Table.Has(TimeS))
        {
            InputFileException error = Table.Error(Table.Has(Sample)
                ? "the beats stand as sample numbers only; give their sampling rate, or a column time_s."
                : "there is neither a column sample nor a column time_s; one of them must say where the beats are.");
            Table.Dispose();
            throw error;
        }
    }

    private protected override TruthEvent Parse()
    {
        long timeNs = _usesSample
            ? SampleTimeNs(Table.Integer(Sample, 0, 1_000_000_000_000), _rateHz!.Value)
            : Table.SecondsAsNs(TimeS);
        if (_usesSample && Table.Has(TimeS) && Math.Abs(timeNs - Table.SecondsAsNs(TimeS)) > Tolerance())
        {
            throw Table.Error(TimeS, FormattableString.Invariant($"does not fit sample {Table[Sample].ToString()} at {_rateHz} Hz; is the rate right"));
        }

        if (timeNs <= _previousNs)
        {
            throw Table.Error(_usesSample ? Sample : TimeS, "must be later than in the row before");
        }

        _previousNs = timeNs;
        return new TruthEvent(ChannelName.Ecg, MarkKind.RPeak, timeNs, double.NaN, _count++, Class(), Flags());
    }

    // A sampling interval, and what a time with four decimals leaves open.
    private long Tolerance() => (TickClock.NanosecondsPerSecond / _rateHz!.Value) + 100_000;

    private static long SampleTimeNs(long sample, long rateHz) =>
        (sample / rateHz * TickClock.NanosecondsPerSecond) + (sample % rateHz * TickClock.NanosecondsPerSecond / rateHz);

    private BeatClass Class() => Table[LabelColumn] switch
    {
        "" => BeatClass.None,
        "normal" => BeatClass.Normal,
        "wide" => BeatClass.Wide,
        _ => throw Table.Error(LabelColumn, "must be normal or wide"),
    };

    private TruthFlags Flags() => Table[Confidence] switch
    {
        "" or "high" => TruthFlags.None,
        "medium" or "low" => TruthFlags.Optional,
        _ => throw Table.Error(Confidence, "must be high, medium or low"),
    };
}
