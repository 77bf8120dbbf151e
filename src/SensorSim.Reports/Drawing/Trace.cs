// SPDX-License-Identifier: MIT
using SkiaSharp;

namespace SensorSim.Reports.Drawing;

/// <summary>A signal of which a stretch at a time is drawn.</summary>
internal sealed class Trace
{
    private const float LonePointPx = 2;
    private readonly double[] _times;
    private readonly double[] _values;
    private readonly List<Run> _runs;

    internal Trace(string title, double[] timesS, double[] values)
    {
        TimePanel.Check(title, timesS, values);
        _times = timesS;
        _values = values;
        _runs = Runs.Of(timesS, values);
        Gaps = Runs.Gaps(timesS, _runs);
    }

    internal bool IsEmpty => _runs.Count == 0;

    /// <summary>Stretches of time without samples [s].</summary>
    internal IReadOnlyList<(double From, double To)> Gaps { get; }

    /// <summary>All values that a line through the stretch touches: those inside and their neighbours.</summary>
    internal Span Heights(double fromS, double toS)
    {
        (int first, int last) = Touched(fromS, toS);
        Span span = new();
        for (int i = first; i <= last; i++)
        {
            span.Include(_values[i]);
        }

        return span;
    }

    /// <summary>The value on the line at a time; NaN where there is no line.</summary>
    internal double ValueAt(double timeS)
    {
        int after = FirstAtOrAfter(timeS);
        if (after < _times.Length && _times[after] == timeS)
        {
            return _values[after];
        }

        if (after == 0 || after == _times.Length || !_runs.Exists(run => run.First < after && run.Last >= after))
        {
            return double.NaN;
        }

        double share = (timeS - _times[after - 1]) / (_times[after] - _times[after - 1]);
        return _values[after - 1] + (share * (_values[after] - _values[after - 1]));
    }

    internal void Draw(SKCanvas canvas, Pens pens, TimeAndHeight scale, double fromS, double toS)
    {
        (int first, int last) = Touched(fromS, toS);
        foreach (Run run in _runs)
        {
            int from = Math.Max(first, run.First);
            int to = Math.Min(last, run.Last);
            if (from == to)
            {
                pens.Spot(canvas, Ink.Signal, scale.X(_times[from]), scale.Y(_values[from]), LonePointPx);
            }
            else if (from < to)
            {
                using SKPath path = Line(scale, from, to);
                pens.Path(canvas, path, Ink.Signal, Ink.SignalWidthPx);
            }
        }
    }

    /// <summary>
    /// The line from one sample to another. Of many samples in a pixel column it keeps the first, the lowest, the highest and the
    /// last: the picture is the same and its size does not grow with the rate.
    /// </summary>
    private SKPath Line(TimeAndHeight scale, int from, int to)
    {
        SKPath path = new();
        path.MoveTo(scale.X(_times[from]), scale.Y(_values[from]));
        int begin = from + 1;
        while (begin <= to)
        {
            double column = Math.Floor(scale.X(_times[begin]));
            int end = begin;
            int low = begin;
            int high = begin;
            while (end + 1 <= to && Math.Floor(scale.X(_times[end + 1])) == column)
            {
                end++;
                low = _values[end] < _values[low] ? end : low;
                high = _values[end] > _values[high] ? end : high;
            }

            Span<int> kept = [begin, Math.Min(low, high), Math.Max(low, high), end];
            for (int i = 0; i < kept.Length; i++)
            {
                if (i == 0 || kept[i] != kept[i - 1])
                {
                    path.LineTo(scale.X(_times[kept[i]]), scale.Y(_values[kept[i]]));
                }
            }

            begin = end + 1;
        }

        return path;
    }

    private (int First, int Last) Touched(double fromS, double toS) =>
        (Math.Max(0, FirstAtOrAfter(fromS) - 1), Math.Min(_times.Length - 1, FirstAtOrAfter(toS)));

    private int FirstAtOrAfter(double timeS)
    {
        int low = 0;
        int high = _times.Length;
        while (low < high)
        {
            int middle = (low + high) / 2;
            (low, high) = _times[middle] < timeS ? (middle + 1, high) : (low, middle);
        }

        return low;
    }
}
