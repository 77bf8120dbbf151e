// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Signals.Time;

namespace SensorSim.Files.Recordings.Columns;

/// <summary>Says which sample a row is: by its number, by a column of indices, or by times. A jump is a gap.</summary>
/// <remarks>
/// With times, the step from one row to the next is rounded to whole sampling intervals and may be <see cref="MostUneven"/> of one off: stamps
/// rounded to milliseconds pass up to 600 Hz. What a clock drifts is not seen: the samples count.
/// </remarks>
internal struct RowPlaces
{
    /// <summary>How far a step may be off, in sampling intervals.</summary>
    public const double MostUneven = 0.45;

    // Nobody samples for a year without a pause; a stretch that is longer by mistake must not keep anybody busy.
    private const double LongestS = 3e7;

    private readonly int _column;
    private readonly double _perSecond;
    private readonly double _rateHz;
    private double _last;
    private long _index;

    /// <summary>Creates it.</summary>
    /// <param name="column">Column of times or of indices; negative when there is none.</param>
    /// <param name="perSecond">Units of the times in a second; 0: the column holds indices.</param>
    /// <param name="rateHz">Sampling rate [Hz].</param>
    public RowPlaces(int column, double perSecond, double rateHz)
    {
        (_column, _perSecond, _rateHz) = (column, perSecond, rateHz);
        _index = -1;
    }

    /// <summary>Whether a row is simply the sample after the one before.</summary>
    public readonly bool IsByRow => _column < 0;

    /// <summary>Index of the sample in the current row.</summary>
    /// <exception cref="InputFileException">The row is not later than the one before, or stands between two samples.</exception>
    public long Next(CsvRows rows)
    {
        if (_column < 0)
        {
            return ++_index;
        }

        long next = Placed(rows);
        return next <= LongestS * _rateHz ? next : throw rows.Error(_column, "lies more than 30000000 s after the first row; a recording may be that long");
    }

    private long Placed(CsvRows rows)
    {
        if (_perSecond == 0)
        {
            long index = rows.Index(_column);
            _index = index > _index ? index : throw rows.Error(_column, "must be larger than in the row before");
            return _index;
        }

        double time = rows.Number(_column) / _perSecond;
        if (_index < 0)
        {
            (_index, _last) = (0, time);
            return 0;
        }

        double steps = (time - _last) * _rateHz;
        double whole = Math.Round(steps);
        if (!(steps > 0))
        {
            throw rows.Error(_column, "must be later than in the row before");
        }

        whole = Math.Max(1, whole);
        if (Math.Abs(steps - whole) > MostUneven)
        {
            throw rows.Error(_column, string.Create(CultureInfo.InvariantCulture, $"is {steps:0.###} sampling intervals of 1/{_rateHz} s after the row before; it must be a whole number of them"));
        }

        _last = time;
        return _index += (long)Math.Min(whole, 1e15);
    }
}
