// SPDX-License-Identifier: MIT
namespace BandApp;

/// <summary>The app's own code, which knows nothing of any simulator: finds beats in the codes of an ECG, one at a time.</summary>
/// <remarks>Squared slope against a threshold that follows its latest peaks; a beat is where the slope was steepest. Integers only.</remarks>
public sealed class BeatFinder
{
    private readonly int _refractory;
    private readonly int _lag;
    private readonly int[] _codes;
    private readonly long _decay;
    private long _index = -1;
    private long _level;
    private long _best = -1;
    private long _bestSlope;
    private long _latest = long.MinValue / 2;

    /// <summary>Creates a finder.</summary>
    /// <param name="rateHz">Sampling rate [Hz], 100 to 2000.</param>
    public BeatFinder(int rateHz)
    {
        _lag = Math.Max(1, rateHz * 12 / 1000);
        _refractory = rateHz * 250 / 1000;
        _codes = new int[_lag];
        _decay = 4L * rateHz;
    }

    /// <summary>Takes the next code.</summary>
    /// <param name="code">The code.</param>
    /// <returns>How many samples ago a beat was, once it is certain; −1: none.</returns>
    public int Push(int code)
    {
        _index++;
        int before = _codes[_index % _lag];
        _codes[_index % _lag] = code;
        if (_index < _lag)
        {
            return -1;
        }

        long slope = Math.Abs((long)code - before);
        _level = Math.Max(_level - (_level / _decay), slope);
        bool isAbove = 2 * slope > _level && _index - _latest > _refractory && _index > 2 * _refractory;
        if (isAbove && (_best < 0 || slope > _bestSlope))
        {
            _best = _index;
            _bestSlope = slope;
        }

        // Certain once nothing steeper has come for a while.
        if (_best < 0 || _index - _best < _refractory / 4)
        {
            return -1;
        }

        _latest = _best;
        _best = -1;
        return (int)(_index - _latest);
    }
}
