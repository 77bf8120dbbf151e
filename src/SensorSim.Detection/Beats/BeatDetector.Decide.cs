// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Beats;

// What a complete block or hump brings, and how a beat is told: a few times a beat, whichever way its samples went.
public partial struct BeatDetector
{
    /// <summary>A block of the learning is complete: are there new levels?</summary>
    private void Learn()
    {
        // Without a beat for 3 s the heart may have become smaller to see; what is smaller than a twelfth is given 9 s, for it may be a pause.
        int silence = _windows.Silence * _windows.Decimation;
        _sinceBeat = _sinceBeat < LongestSilence ? _sinceBeat : LongestSilence;
        bool isSilent = _sinceBeat > silence && (_learning.Highest > _levels.HalfSignal / 6 || _sinceBeat > 3 * silence);
        if ((!_levels.IsLearned || isSilent) && _learning.HasBeats && _learning.Highest >= _windows.Least)
        {
            _levels.Learn(_learning.Highest, _learning.Mean);
            _judge.Forget();
        }
    }

    /// <summary>A hump is complete: what is it?</summary>
    private void Decide()
    {
        long middle = _now - 1 - _peaks.Age - _windows.Delay;
        if (!_levels.IsLearned || middle < _windows.Edge)
        {
            return;
        }

        if (_peaks.Height <= _levels.LookBackThreshold)
        {
            // Too low even for an overdue beat: not worth a look.
            _levels.AddNoise(_peaks.Height);
            return;
        }

        BeatCandidate c = default;
        c.Height = _peaks.Height;
        _judge.Memory.Look(_windows, _ecg, ref _locator, middle, _now - 1, ref c);
        if (!_gaps.Holds(_base + ((c.Position256 >> 8) * _windows.Decimation)))
        {
            _judge.Add(_windows, ref _levels, c);
        }
    }

    /// <summary>The judge may have a beat: it becomes the event.</summary>
    private bool Tell()
    {
        if (!_judge.TryTake(out BeatCandidate c))
        {
            return false;
        }

        int n = _windows.Decimation;
        long place = (c.Position256 * n) + ((n - 1) * 128) + (_base * 256);
        int deviation = MeanOf(c.Deviation, n);
        bool isPaced = false;
        for (int i = 0; i < Wide4.Length; i++)
        {
            long since = (place >> 8) - _spikeAt[i];
            isPaced |= since >= -1 && since <= _windows.PacedReach;
        }

        long arrived = _gaps.IsOpen ? _next : _next - 1;
        bool startsRun = !_hasRunBeat || c.IsAfterLoss;
        _event = new BeatEvent(SamplePosition.From256(place), deviation, c.Quality, startsRun, arrived, c.IsWide, isPaced);
        _hasRunBeat = true;
        _sinceBeat = (int)(_next - 1 - (place >> 8));
        return true;
    }

    // A working sample is the sum of one to four codes: what it deviates by, as codes.
    private static int MeanOf(int deviation, int codes)
    {
        if (codes != 3)
        {
            return Shift.Round(deviation, Shift.Floor(codes, 1));
        }

        int third = LongDivision.Rounded((ulong)Sat.Abs32(deviation), 3);
        return deviation < 0 ? -third : third;
    }
}
