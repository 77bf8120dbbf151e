// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pipeline;
using SensorSim.FixedPoint;
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics.X86;

namespace SensorSim.Detection.Beats;

/// <summary>Finds R peaks in a stream of ECG codes. A value of fixed size: an assignment copies the whole state.</summary>
/// <remarks>
/// <para>Samples go one by one through the stages (this file), as a run where they can bring no decision (BeatDetector.Runs.cs), or as a stretch in lanes
/// (BeatDetector.Lanes.cs). What a hump is, is decided in BeatDetector.Decide.cs for all three.</para>
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
        // The first way of three that the next samples allow; all three find the same.
        bool isWatched = probe.MostAtOnce < MostInRun;
        int done = 0;
        found = false;
        while (done < codes.Length && !found)
        {
            int left = codes.Length - done;
            ReadOnlySpan<ushort> flags = status.Length == 0 ? status : status[done..];
            if (Avx2.IsSupported)
            {
                int stretch = isWatched ? 0 : CountLanes(left, flags);
                if (stretch > 0)
                {
                    done += RunLanes(codes.Slice(done, stretch), out found);
                    continue;
                }
            }

            int run = isWatched ? 0 : CountRun(left, flags);
            if (run > 1)
            {
                Run(codes.Slice(done, run));
                done += run;
                continue;
            }

            bool isFlagged = flags.Length != 0 && (flags[0] & SampleFlags.PacingSpike) != 0;
            done += TakeOne(codes[done], isFlagged, ref probe, out found);
        }

        return done;
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

    // Takes a sample, and before it those that bridge a gap; none when a beat is found among these.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private int TakeOne<TProbe>(int code, bool isFlagged, ref TProbe probe, out bool found)
        where TProbe : struct, IProbe
    {
        if (_gaps.IsOpen && FillGap(code, ref probe))
        {
            found = true;
            return 0;
        }

        _gaps.Last = code;
        _next++;
        found = Next(code, isFlagged, ref probe);
        return 1;
    }

    // Fills a gap up to the sample that has come after it; one that is too long ends the run. Whether a beat is found meanwhile.
    private bool FillGap<TProbe>(int code, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        _gaps.Aim(code);
        while (_gaps.TryFill(out int filled))
        {
            if (NextFilled(filled, ref probe))
            {
                return true;
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

        return false;
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
}
