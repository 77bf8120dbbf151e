// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Beats;

/// <summary>Side stage: fills short gaps by a straight line, and remembers where, so that no beat is told from inside.</summary>
/// <remarks>
/// Input: codes of 24 bits, gaps of up to 250 samples.
/// Product: none; one division for each gap.
/// Accumulator: 64 bits, Q56.8.
/// Worst case: 25 bits of difference times 256.
/// Output: codes, floor.
/// </remarks>
public struct BeatGaps
{
    private Wide4 _from;
    private Wide4 _until;
    private int _at;
    private long _value256;
    private long _step256;
    private int _length;
    private bool _isAimed;

    /// <summary>Whether samples are still to be filled in.</summary>
    public bool IsOpen { get; private set; }

    /// <summary>Whether the gap is too long to be bridged: the run ends with it.</summary>
    public bool IsLong { get; private set; }

    /// <summary>Latest sample that came.</summary>
    public int Last { get; set; }

    /// <summary>Forgets all gaps.</summary>
    public void Restart()
    {
        IsOpen = false;
        _isAimed = false;
        _length = 0;
        for (int i = 0; i < Wide4.Length; i++)
        {
            _from[i] = long.MaxValue;
            _until[i] = 0;
        }
    }

    /// <summary>A gap comes: a short one will be bridged, of a long one only the begin is filled, so that what came before is decided.</summary>
    /// <param name="w">Lengths.</param>
    /// <param name="next">Index that would come next.</param>
    /// <param name="index">Index that comes.</param>
    public void Open(in BeatWindows w, long next, long index)
    {
        if (!IsOpen)
        {
            _at++;
            _from[_at & (Wide4.Length - 1)] = next;
        }

        long length = index - _from[_at & (Wide4.Length - 1)];
        IsLong = length < 0 || length > w.Bridge;
        _until[_at & (Wide4.Length - 1)] = IsLong ? long.MaxValue : index;
        _length = IsLong ? w.Tail : (int)length;
        IsOpen = true;
    }

    /// <summary>The first sample after the gap has come.</summary>
    /// <param name="code">It.</param>
    public void Aim(int code)
    {
        if (_isAimed)
        {
            return;
        }

        _isAimed = true;
        _value256 = Last * 256L;
        long rise = IsLong ? 0 : (code - (long)Last) * 256;
        int step = LongDivision.Rounded((ulong)(rise < 0 ? -rise : rise), (uint)_length + 1);
        _step256 = rise < 0 ? -step : step;
    }

    /// <summary>The next sample of the line.</summary>
    /// <param name="code">The sample.</param>
    /// <returns>Whether there was one left.</returns>
    public bool TryFill(out int code)
    {
        _value256 += _step256;
        code = (int)(_value256 >> 8);
        if (_length > 0)
        {
            _length--;
            return true;
        }

        IsOpen = false;
        _isAimed = false;
        return false;
    }

    /// <summary>Whether a place lies inside of what was filled in.</summary>
    /// <param name="index">Sample index.</param>
    public readonly bool Holds(long index)
    {
        for (int i = 0; i < Wide4.Length; i++)
        {
            if (index >= _from[i] && index < _until[i])
            {
                return true;
            }
        }

        return false;
    }
}
