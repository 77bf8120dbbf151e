// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;
using SensorSim.Detection.Pipeline;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Gate;

/// <summary>Whether the ECG is steady enough for a reading, and why not. A value of fixed size: an assignment copies the whole state.</summary>
/// <remarks>
/// Input: beats, unusable stretches and the time, in order of time.
/// Product: levels by 7, of 31 bits, in 64 bits.
/// Accumulator: 64 bits.
/// Worst case: see <see cref="Evidence"/> and <see cref="GateLatch"/>.
/// Output: open or shut with a reason; a quality of 0 to 255.
/// </remarks>
public struct EcgGate
{

    // From four intervals on a heart rate can be told.
    private const int FewestBeats = 5;
    private const int FewestIntervals = 3;

    // How many of up to 15 features may stand out: to open, and to stay open.
    // Fibrillation has odd intervals but heights that are all alike, which noise has not.
    private const int MoreWhenAlike = 1;
    private const int FaultsToStay = 6;

    // Every second beat early is a pattern of its own.
    private const int MostOddWhenExcused = 4;

    // An interval of twice the length is a missed beat, or a blocked one: taken for missed. When they recur evenly, at most so many
    // beats apart, in a clear ECG, it is the heart.
    private const int RecurrentBeats = 12;

    // Beats over what is none, in eighths: of noise alone the detector makes beats of one and a half times the noise.
    private const int WeakToOpen = 16;
    private const int WeakToStay = 13;

    private GateTime _time;
    private GateLatch _latch;
    private Usable _usable;
    private Evidence _evidence;
    // How strict it is, two numbers of four bits: features that may stand out when it opens, and most doubt.
    private byte _strictness;
    private byte _doubt;
    private byte _sinceDouble;
    private byte _spacing;
    private bool _isHeld;
    private bool _isWeak;
    private bool _isClear;
    private bool _isBroken;

    /// <summary>Whether a reading may be given now.</summary>
    public readonly bool IsOpen => _latch.IsOpen && !_isHeld && !_usable.IsBad;

    /// <summary>Why the gate is shut; none while it is open, even while a single beat is held back.</summary>
    public readonly GateReason Reason => _latch.Reason;

    /// <summary>When the gate last opened or shut [1/256 tick].</summary>
    public readonly long SinceTicks256 => _latch.SinceTicks256;

    /// <summary>The beats that opened the gate begin here: a reading should use nothing older [1/256 tick].</summary>
    public long TrustedFromTicks256 { get; private set; }

    /// <summary>Trust, 0 to 255; 0 while shut.</summary>
    public readonly byte Quality => IsOpen ? Trust() : (byte)0;

    private readonly int FaultsToOpen => _strictness >> 4;

    // Noise is convincing by chance for a beat or two: after so many beats that were not, as many have to be.
    private readonly int MostDoubt => _strictness & 15;

    /// <summary>Shuts, waiting, and forgets.</summary>
    /// <param name="clock">The common clock.</param>
    public void Start(CommonClock clock) => Start(clock, Tuning.Usual);

    /// <summary>Shuts, waiting, and forgets.</summary>
    /// <param name="clock">The common clock.</param>
    /// <param name="tuning">How strict it is.</param>
    public void Start(CommonClock clock, in Tuning tuning)
    {
        this = default;
        _time.Start(clock);
        _latch.Start(tuning.GateShutMs);
        _strictness = (byte)((tuning.EcgFaultsToOpen << 4) | tuning.Doubt);
        _sinceDouble = byte.MaxValue;
    }

    /// <summary>Whether the latest R peak is as high as most, and of the same sign: else it may be a wave beside it.</summary>
    public readonly bool IsUsualHeight => _evidence.IsUsualHeight;

    /// <summary>A stretch of unusable samples begins or goes on.</summary>
    /// <param name="ticks256">Now [1/256 tick].</param>
    /// <param name="flags">Status bits (<see cref="SampleFlags"/>); 0 when samples do not come.</param>
    public void Unusable(long ticks256, ushort flags) => _usable.Bad(ticks256, flags);

    /// <summary>Usable samples come again.</summary>
    /// <param name="ticks256">The first of them [1/256 tick].</param>
    public void Usable(long ticks256)
    {
        if (_usable.Good(_time, ticks256))
        {
            Forget();
            _doubt = 0;
        }
    }

    /// <summary>A beat was found.</summary>
    /// <param name="beat">The beat.</param>
    /// <param name="ticks256">Its R peak [1/256 tick].</param>
    /// <param name="signalLevel">Typical height of beats, as the detector keeps it.</param>
    /// <param name="noiseLevel">Typical height of what is no beat, in the same format.</param>
    public void Beat(in BeatEvent beat, long ticks256, int signalLevel, int noiseLevel)
    {
        _evidence.Add(_time, ticks256, beat.AmplitudeCodes, beat.StartsRun);
        int eighths = _latch.IsOpen ? WeakToStay : WeakToOpen;
        _isWeak = 8L * signalLevel < (long)eighths * noiseLevel;
        _isClear = signalLevel >= 3L * noiseLevel;
        _isHeld = _evidence.IsDoubtful;
        if (!_latch.IsOpen && _evidence.Count == SignedHalf8.Length)
        {
            _doubt = IsConvincing() ? (byte)(_doubt > 0 ? _doubt - 1 : 0) : (byte)(_doubt < MostDoubt ? _doubt + 1 : MostDoubt);
        }

        bool isMissing = _evidence.IsDouble && !IsRecurrent();
        if (_evidence.IsDouble)
        {
            _spacing = _sinceDouble;
            _sinceDouble = 0;
        }
        else if (_sinceDouble < byte.MaxValue)
        {
            _sinceDouble++;
        }

        if (_evidence.IsBroken || isMissing)
        {
            // The intervals up to here are wrong; what comes is judged anew, this beat its first.
            _isBroken = true;
            _evidence.Clear();
            _evidence.Add(_time, ticks256, beat.AmplitudeCodes, startsRun: true);
        }
    }

    /// <summary>Time goes on: judges anew.</summary>
    /// <param name="ticks256">Now [1/256 tick], never less than before.</param>
    /// <returns>Whether the gate opened or shut.</returns>
    public bool Advance(long ticks256)
    {
        GateReason reason = Judge(ticks256);
        bool hasChanged = _latch.Next(_time, ticks256, reason);
        if (hasChanged && _latch.IsOpen)
        {
            _doubt = 0;
            TrustedFromTicks256 = _evidence.Back(_time, FewestBeats - 1);
        }
        else if (hasChanged)
        {
            Forget();
        }

        return hasChanged;
    }

    private GateReason Judge(long ticks256)
    {
        GateReason usable = _usable.Judge(_time, ticks256);
        if (usable != GateReason.None)
        {
            return usable;
        }

        bool isBroken = _isBroken;
        _isBroken = false;
        if (isBroken && _latch.IsOpen)
        {
            return GateReason.Irregular;
        }

        int count = _evidence.Count;
        if (count > 0 && _evidence.IsSilent(_time, ticks256))
        {
            Forget();
            GateReason recent = _usable.Recent(_time, ticks256);
            return recent == GateReason.None ? GateReason.TooWeak : recent;
        }

        if (_latch.IsOpen)
        {
            return _isWeak ? GateReason.TooWeak : IsLost() ? GateReason.Irregular : GateReason.None;
        }

        if (count < FewestBeats || _evidence.IntervalCount < FewestIntervals)
        {
            // What shut it still stands until there is something to say.
            return _latch.Reason is GateReason.TooWeak or GateReason.Irregular ? _latch.Reason : GateReason.Waiting;
        }

        return _isWeak ? GateReason.TooWeak
            : _doubt > 0 || _isHeld || !IsConvincing() ? GateReason.Irregular
            : GateReason.None;
    }

    /// <summary>Whether an interval of twice the length comes as long after the last one as that came after its own last.</summary>
    private readonly bool IsRecurrent() =>
        _isClear && _evidence.HeightFaults == 0 && _sinceDouble < RecurrentBeats && Sat.Abs32(_sinceDouble - _spacing) <= 1;

    /// <summary>Whether the last five to eight beats are enough alike to open.</summary>
    private readonly bool IsConvincing()
    {
        int allowed = _isClear && _evidence.HeightFaults == 0 ? FaultsToOpen + MoreWhenAlike : FaultsToOpen;
        int faults = _evidence.Faults;

        // An early beat with its pause is the heart's, when beats stand out clearly; one is charged for the looser look.
        faults = _isClear && _evidence.IntervalFaults <= MostOddWhenExcused && _evidence.Unexplained + 1 < faults ? _evidence.Unexplained + 1 : faults;
        return faults <= allowed - (SignedHalf8.Length - _evidence.Count) && !_evidence.HasBreak();
    }

    /// <summary>Whether the last beats differ too much to stay open. Intervals alone, of beats that are clear and alike, never do.</summary>
    private readonly bool IsLost() =>
        _evidence.Unexplained > FaultsToStay && !(_isClear && _evidence.HeightFaults <= 1);

    // Eight intervals and eight heights may all stand out: sixteen, which is more than 255 bears.
    private readonly byte Trust()
    {
        int trust = _isClear ? 255 - (16 * _evidence.Faults) : 128 - (8 * _evidence.Faults);
        return (byte)(trust < 0 ? 0 : trust);
    }

    private void Forget()
    {
        _evidence.Clear();
        _isHeld = false;
    }
}
