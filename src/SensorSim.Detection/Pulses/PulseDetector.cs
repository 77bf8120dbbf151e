// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pipeline;
using SensorSim.FixedPoint;
using System.Runtime.Intrinsics.X86;

namespace SensorSim.Detection.Pulses;

/// <summary>Finds pulses in a stream of optical codes. A value of fixed size: an assignment copies the whole state.</summary>
/// <remarks>
/// Input: codes of up to 24 bits, received light: they fall when the vessel fills.
/// Product: see the stages: light input, watch slope, upstroke finder, levels, noise, foot locator.
/// Accumulator: 32 bits throughout; 64 bits only for sample indices and once per change of settings.
/// Worst case: see the stages.
/// Output: events with places in 1/256 sample, at most one a sample.
/// </remarks>
public partial struct PulseDetector
{
    private const int Mask = Word256.Length - 1;

    private PulseWindows _windows;
    private LightInput _input;
    private WatchSlope _slope;
    private UpstrokeFinder _upstroke;
    private PulseLevels _levels;
    private PulseLearning _learning;
    private PulseNoise _noise;
    private FootLocator _locator;
    private PulsePace _pace;
    private SampleMarks _marks;
    private Word256 _filling;

    private long _base;
    private long _now;
    private long _refusedAt;
    private long _clearFrom;
    private long _jumpAt;
    private PulseRise _rise;
    private PulseEvent _event;

    /// <summary>Index of the sample that comes next.</summary>
    public readonly long NextIndex => _base + (_now * _windows.Decimation) + _input.Phase + _input.FillLeft;

    /// <summary>The latest pulse; meaningful after a call that said there is one.</summary>
    public readonly PulseEvent Event => _event;

    /// <summary>Whether a level has been learned.</summary>
    public readonly bool IsLearned => _levels.Signal > 0;

    /// <summary>Typical steepest slope of a pulse, by the straight line of 120 ms: slope × Σk²; 0 while nothing is learned.</summary>
    public readonly int SignalLevel => _levels.Signal;

    /// <summary>Deviation that the noise of the samples gives that slope, in the same format.</summary>
    public readonly int NoiseLevel => _noise.Level;

    /// <summary>Samples since the steepest point of the last pulse, or since the run began.</summary>
    public readonly int SincePulseSamples => _pace.Since * _windows.Decimation;

    /// <summary>Prepares for a stream and drops all state.</summary>
    /// <param name="rateHz">Sampling rate [Hz], 25 to 500.</param>
    /// <param name="polarity">+1 when more light raises the code, −1 when it lowers it.</param>
    /// <param name="zeroCode">Code of no light.</param>
    /// <returns>Whether the arguments are allowed.</returns>
    public bool Start(int rateHz, int polarity, int zeroCode = 0) => Start(rateHz, polarity, zeroCode, Tuning.Usual);

    /// <summary>Prepares for a stream and drops all state.</summary>
    /// <param name="rateHz">Sampling rate [Hz], 25 to 500.</param>
    /// <param name="polarity">+1 when more light raises the code, −1 when it lowers it.</param>
    /// <param name="zeroCode">Code of no light.</param>
    /// <param name="tuning">Constants that may be set.</param>
    /// <returns>Whether the arguments are allowed.</returns>
    public bool Start(int rateHz, int polarity, int zeroCode, in Tuning tuning)
    {
        if (rateHz < PulseWindows.MinimumRateHz || rateHz > PulseWindows.MaximumRateHz || (polarity != 1 && polarity != -1))
        {
            return false;
        }

        this = default;
        _windows = PulseWindows.ForRate(rateHz, tuning);
        _levels.SetPercent(tuning.PulseThresholdPercent);
        _refusedAt = -(1L << 40);
        _input.Start(_windows, polarity, zeroCode);
        _locator.Restart(_windows);
        _noise.Start(_windows);
        _levels.SetNoise(0);
        BeginRun(0);
        return true;
    }

    /// <summary>The next sample has this index: after a gap, or after samples that cannot be used.</summary>
    /// <remarks>
    /// Up to 250 ms are bridged by a straight line and the run goes on; what has its upstroke there is not told. After longer gaps the run
    /// begins anew; the level stays.
    /// </remarks>
    /// <param name="index">Index of the next sample.</param>
    public void Restart(long index)
    {
        long gap = index - NextIndex;
        if (_input.IsFresh || gap <= 0 || gap + _input.FillLeft > _windows.Bridge)
        {
            BeginRun(index);
        }
        else
        {
            _input.Bridge((int)gap);
        }
    }

    /// <summary>The sensor's settings changed at this sample: the level jumps and settles, and the pulse may be larger or smaller.</summary>
    /// <param name="index">Index of the next sample.</param>
    public void Step(long index)
    {
        if (index != NextIndex)
        {
            Restart(index);
        }

        _input.Settle(_windows.Settling);
    }

    /// <summary>Takes samples until a pulse is found or none is left.</summary>
    /// <param name="codes">The samples.</param>
    /// <param name="found">Whether <see cref="Event"/> holds a new pulse.</param>
    /// <returns>How many samples were taken; after a gap a pulse may be found before the first one is taken.</returns>
    public int Take(ReadOnlySpan<int> codes, out bool found)
    {
        NoProbe probe = default;
        return Take(codes, ref probe, out found);
    }

    /// <summary>Takes samples until a pulse is found or none is left.</summary>
    /// <param name="codes">The samples.</param>
    /// <param name="probe">Sees intermediate values.</param>
    /// <param name="found">Whether <see cref="Event"/> holds a new pulse.</param>
    /// <returns>How many samples were taken; after a gap a pulse may be found before the first one is taken.</returns>
    public int Take<TProbe>(ReadOnlySpan<int> codes, ref TProbe probe, out bool found)
        where TProbe : struct, IProbe
    {
        found = false;
        if (codes.Length == 0)
        {
            return 0;
        }

        while (_input.FillLeft > 0)
        {
            if (_input.NextFilled(codes[0]) && Next(ref probe))
            {
                _event = _event with { FoundAt = NextIndex };
                found = true;
                return 0;
            }
        }

        for (int i = 0; i < codes.Length;)
        {
            if (Avx2.IsSupported)
            {
                int count = probe.MostAtOnce < PulseLines.Most ? 0 : CountLanes(codes.Length - i);
                if (count > 0)
                {
                    i += RunLanes(codes.Slice(i, count), ref probe, out found);
                    if (found)
                    {
                        return i;
                    }

                    continue;
                }
            }

            int run = _input.IsPlain && !_marks.IsActive ? _learning.RoomForRun(_windows.LearningBlock) : 0;
            if (run > 0)
            {
                run = run < codes.Length - i ? run : codes.Length - i;
                i += Run(codes.Slice(i, run), ref probe, out found);
            }
            else
            {
                found = _input.Next(codes[i]) && Next(ref probe);
                i++;
            }

            if (found)
            {
                return i;
            }
        }

        return codes.Length;
    }

    private void BeginRun(long index)
    {
        _base = index;
        _now = 0;
        _clearFrom = 0;
        _jumpAt = -1;
        _marks = default;
        _input.Restart();
        _pace.BeginRun();
        _upstroke.Restart(_windows.LongestRise);
    }

    private bool Next<TProbe>(ref TProbe probe)
        where TProbe : struct, IProbe
    {
        int at = (int)_now & Mask;
        if (_input.NeedsCare || _marks.IsActive)
        {
            TakeCare(at);
        }

        int filling = _input.Value;
        int leaving = _filling[(at - (2 * _windows.WatchArm) - 1) & Mask];
        _filling[at] = filling;
        _now++;
        _pace.Next(1);
        probe.See(ProbePoint.PulseInput, filling);
        int slope = _slope.Next(filling, leaving);
        probe.See(ProbePoint.PulseSlope, slope);
        if (IsLearned)
        {
            // Before that nothing passes, and there is no threshold to see.
            probe.See(ProbePoint.PulseThreshold, _levels.Late);
        }

        if (_learning.Next(slope, _windows.LearningBlock, _levels.Limit))
        {
            Review();
        }

        return _upstroke.Next(slope, _levels.Late) && Decide(ref probe);
    }

    /// <summary>A run begins, or the level has jumped with notice: what is held is moved to the new level. Marks are kept.</summary>
    private void TakeCare(int at)
    {
        if (_input.IsFresh)
        {
            _slope.Restart(_windows.WatchArm, _input.Value);
            for (int i = 0; i < Word256.Length; i++)
            {
                _filling[i] = _input.Value;
            }
        }
        else if (_input.Jump != 0)
        {
            int jump = _input.Jump;
            _slope.Raise(jump);
            for (int i = 0; i < Word256.Length; i++)
            {
                _filling[i] += jump;
            }

            _levels.Scale(_input.Ratio256);
            _jumpAt = _now;
        }

        _marks.Put(at, _input.EndCare());
    }

    /// <summary>Half a second is over: a level is needed, or has not fitted for a while.</summary>
    private void Review()
    {
        _pace.Limit();
        if (_now >= _windows.LearningBlock)
        {
            _noise.Estimate(_filling, (int)(_now - 1) & Mask, _windows);
            _levels.SetNoise(_noise.Level);
        }

        int steepest = _learning.Steepest;
        if (Shift.Floor(steepest, 3) < _levels.Noise)
        {
            return;
        }

        if (!IsLearned)
        {
            if (_learning.Filled >= PulseLearning.Blocks)
            {
                _levels.Learn(steepest);
            }
        }
        else if (_pace.Silence > _windows.Silence && _pace.Silence > 2 * _pace.Interval)
        {
            // A pause of the heart is no reason to believe in ripples: not below an eighth of what pulses have been, at first. Larger
            // pulses would have been refused, and are learned from there.
            int least = _pace.Silence > _windows.LongSilence ? 0 : Shift.Floor(_levels.Proven, 3);
            steepest = steepest > least ? steepest : least;
            if (steepest < _levels.Signal)
            {
                _levels.Learn(steepest);
            }
        }
    }
}
