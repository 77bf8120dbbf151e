// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pipeline;
using SensorSim.FixedPoint;
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics.X86;

namespace SensorSim.Detection.Beats;

/// <summary>Finds R peaks in a stream of ECG codes. A value of fixed size: an assignment copies the whole state.</summary>
/// <remarks>
/// Input: codes of up to 24 bits, any weight of a bit, either polarity.
/// Product: see the stages: spikes, band-pass, energy, peak finder, levels, locator, shape, judge.
/// Accumulator: 32 bits throughout; 64 bits only for sample indices.
/// Worst case: see the stages.
/// Output: events with places in 1/256 sample, at most one a sample.
/// </remarks>
public partial struct BeatDetector
{
    private const long Never = long.MinValue / 2;

    // Counted in samples, and no more than this after weeks without a beat.
    private const int LongestSilence = 1 << 30;

    private BeatWindows _windows;
    private SpikeFilter _spikes;
    private BandPass _bandPass;
    private QrsEnergy _energy;
    private PeakFinder _peaks;
    private BeatLevels _levels;
    private BeatLocator _locator;
    private BeatLearning _learning;
    private BeatJudge _judge;
    private BeatGaps _gaps;
    private Word256 _ecg;
    private Wide4 _spikeAt;

    private long _next;
    private long _base;
    private long _now;
    private int _sum;
    private int _phase;
    private int _skip;
    private int _spikeCount;
    private int _sinceBeat;
    private bool _isFresh;
    private bool _hasRunBeat;
    private BeatEvent _event;

    /// <summary>Index of the sample that comes next.</summary>
    public readonly long NextIndex => _next;

    /// <summary>The latest beat; meaningful after a call that said there is one.</summary>
    public readonly BeatEvent Event => _event;

    /// <summary>Whether heights of beats and noise are known.</summary>
    public readonly bool IsLearned => _levels.IsLearned;

    /// <summary>Typical height of a beat in the energy, halved; 0 while nothing is learned.</summary>
    public readonly int SignalLevel => _levels.HalfSignal;

    /// <summary>Typical height of what is no beat, halved.</summary>
    public readonly int NoiseLevel => _levels.HalfNoise;

    /// <summary>Samples taken since the R peak of the latest beat, bridged ones included; since the start while there is none.</summary>
    public readonly int SinceBeatSamples => _sinceBeat;

    /// <summary>Prepares for a stream and drops all state.</summary>
    /// <param name="rateHz">Sampling rate [Hz], 100 to 1000.</param>
    /// <param name="codesPerMv256">Codes in a millivolt, times 256; 0 when unknown.</param>
    /// <returns>Whether the rate is allowed.</returns>
    public bool Start(int rateHz, int codesPerMv256 = 0) => Start(rateHz, codesPerMv256, Tuning.Usual);

    /// <summary>Prepares for a stream and drops all state.</summary>
    /// <param name="rateHz">Sampling rate [Hz], 100 to 1000.</param>
    /// <param name="codesPerMv256">Codes in a millivolt, times 256; 0 when unknown.</param>
    /// <param name="tuning">Constants that may be set.</param>
    /// <returns>Whether the rate is allowed.</returns>
    public bool Start(int rateHz, int codesPerMv256, in Tuning tuning)
    {
        if (rateHz < BeatWindows.MinimumRateHz || rateHz > BeatWindows.MaximumRateHz)
        {
            return false;
        }

        this = default;
        _windows = BeatWindows.ForRate(rateHz, codesPerMv256, tuning);
        _levels.SetPercent(tuning.BeatThresholdPercent);
        _spikes.Start(rateHz, codesPerMv256);
        for (int i = 0; i < Wide4.Length; i++)
        {
            _spikeAt[i] = Never;
        }

        Begin(0);
        return true;
    }

    /// <summary>
    /// The next sample has this index: after a gap, or after samples that cannot be used. As soon as the next sample comes a short gap is
    /// filled by a straight line, and the run goes on; a longer one ends it. Levels and shapes stay.
    /// </summary>
    /// <param name="index">Index of the next sample.</param>
    public void Restart(long index)
    {
        if (_isFresh)
        {
            Begin(index);
            return;
        }

        if (index != _next)
        {
            _gaps.Open(_windows, _next, index);
            _next = index;
        }
    }

    /// <summary>Takes samples until a beat is found or none is left.</summary>
    /// <param name="codes">The samples.</param>
    /// <param name="found">Whether <see cref="Event"/> holds a new beat.</param>
    /// <returns>How many samples were taken.</returns>
    public int Take(ReadOnlySpan<int> codes, out bool found)
    {
        NoProbe probe = default;
        return Take(codes, default, ref probe, out found);
    }

    /// <summary>Takes samples until a beat is found or none is left.</summary>
    /// <param name="codes">The samples.</param>
    /// <param name="status">Their status words (<see cref="SampleFlags"/>); empty when the sensor gives none.</param>
    /// <param name="probe">Sees intermediate values.</param>
    /// <param name="found">Whether <see cref="Event"/> holds a new beat.</param>
    /// <returns>How many samples were taken; 0 is possible when a beat is found while a gap before the first one is filled.</returns>
    public int Take<TProbe>(ReadOnlySpan<int> codes, ReadOnlySpan<ushort> status, ref TProbe probe, out bool found)
        where TProbe : struct, IProbe
    {
        found = true;
        for (int i = 0; i < codes.Length;)
        {
            if (Avx2.IsSupported)
            {
                int count = probe.MostAtOnce < MostInRun ? 0 : CountLanes(codes.Length - i, status.Length == 0 ? status : status[i..]);
                if (count > 0)
                {
                    i += RunLanes(codes.Slice(i, count), out bool isBeat);
                    if (isBeat)
                    {
                        return i;
                    }

                    continue;
                }
            }

            int run = probe.MostAtOnce < MostInRun ? 0 : CountRun(codes.Length - i, status.Length == 0 ? status : status[i..]);
            if (run > 1)
            {
                Run(codes.Slice(i, run));
                i += run;
                continue;
            }

            if (_gaps.IsOpen)
            {
                _gaps.Aim(codes[i]);
                while (_gaps.TryFill(out int filled))
                {
                    if (NextFilled(filled, ref probe))
                    {
                        return i;
                    }
                }

                if (_gaps.IsLong)
                {
                    Begin(_next);
                }
                else
                {
                    _judge.Bridge();
                }
            }

            bool isFlagged = status.Length != 0 && (status[i] & SampleFlags.PacingSpike) != 0;
            int code = codes[i++];
            _gaps.Last = code;
            _next++;
            if (Next(code, isFlagged, ref probe))
            {
                return i;
            }
        }

        found = false;
        return codes.Length;
    }

    /// <summary>No more samples follow (the end, or a gap): decides about what is held. Call it again while it says yes.</summary>
    /// <returns>Whether <see cref="Event"/> holds a new beat.</returns>
    public bool Flush()
    {
        // Half an integration past its top the whole complex has been seen.
        if (_peaks.IsHolding && _peaks.Age >= _windows.Integration >> 1)
        {
            Decide();
            _peaks.Restart(_windows.Hold);
        }

        _judge.Close(_windows, ref _levels);
        return Tell();
    }

    private void Begin(long index)
    {
        _next = index;
        _base = index;
        _now = 0;
        _phase = 0;
        _sum = 0;
        _isFresh = true;
        _hasRunBeat = false;
        _skip = _spikes.Delay;
        _gaps.Restart();
        _judge.Restart();
        _peaks.Restart(_windows.Hold);
        _energy.Restart(_windows);
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private bool NextFilled<TProbe>(int code, ref TProbe probe)
        where TProbe : struct, IProbe => Next(code, false, ref probe);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private bool Next<TProbe>(int code, bool isFlagged, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        if (_isFresh)
        {
            Fill(code);
        }

        probe.See(ProbePoint.EcgInput, code);
        if (_spikes.Next(code, isFlagged, out int clean))
        {
            _spikeAt[_spikeCount++ & (Wide4.Length - 1)] = _next - 1 - _spikes.Age;
        }

        if (_skip > 0)
        {
            _skip--;
            return false;
        }

        _sum += clean;
        if (++_phase < _windows.Decimation)
        {
            return false;
        }

        int value = _sum;
        _sum = 0;
        _phase = 0;
        return Work(value, ref probe);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private bool Work<TProbe>(int value, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        long now = _now;
        _ecg[(int)now & (Word256.Length - 1)] = value;
        _now = now + 1;
        _sinceBeat += _windows.Decimation;
        probe.See(ProbePoint.EcgWithoutSpikes, value);
        int passed = _bandPass.Next(value, ref probe);
        probe.See(ProbePoint.EcgBandPass, passed);
        int energy = _energy.Next(passed);
        probe.See(ProbePoint.EcgEnergy, energy);
        probe.See(ProbePoint.BeatThreshold, _levels.Threshold);
        probe.See(ProbePoint.BeatLookBackThreshold, _levels.LookBackThreshold);
        if (!_gaps.IsOpen && _learning.Next(energy, _windows.LearningBlock))
        {
            Learn();
        }

        if (_peaks.Next(energy))
        {
            Decide();
        }

        return _judge.Pass(_windows, ref _levels, now) && Tell();
    }

    private void Fill(int code)
    {
        _isFresh = false;
        _spikes.Restart(code);
        int value = code * _windows.Decimation;
        _bandPass.Restart(_windows, value);
        for (int i = 0; i < Word256.Length; i++)
        {
            _ecg[i] = value;
        }
    }

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

    private static int Third(int value)
    {
        int third = LongDivision.Rounded((ulong)Sat.Abs32(value), 3);
        return value < 0 ? -third : third;
    }

    private bool Tell()
    {
        if (!_judge.TryTake(out BeatCandidate c))
        {
            return false;
        }

        int n = _windows.Decimation;
        long place = (c.Position256 * n) + ((n - 1) * 128) + (_base * 256);
        int deviation = n == 1 ? c.Deviation : n == 2 ? Shift.Round(c.Deviation, 1) : n == 4 ? Shift.Round(c.Deviation, 2) : Third(c.Deviation);
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
}
