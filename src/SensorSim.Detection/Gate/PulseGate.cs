// SPDX-License-Identifier: MIT
using SensorSim.Detection.Ambient;
using SensorSim.Detection.Pipeline;
using SensorSim.Detection.Pulses;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Gate;

/// <summary>Whether the light is steady enough for a reading, and why not. A value of fixed size: an assignment copies the whole state.</summary>
/// <remarks>
/// Input: pulses, unusable stretches, movement, room light and the time, in order of time.
/// Product: amplitudes by 1000, 24 + 10 bits, in 64 bits.
/// Accumulator: 64 bits.
/// Worst case: see <see cref="Evidence"/> and <see cref="GateLatch"/>.
/// Output: open or shut with a reason, for feet and for the rate alone; a quality of 0 to 255.
/// </remarks>
public struct PulseGate
{
    private const int FewestPulses = 5;
    private const int FewestIntervals = 3;

    // Noise makes upstrokes all the time, so pulses have to be more alike than beats.
    private const int FaultsToStay = 6;

    // Perfusion in thousandths: below 0.1 % nothing is given, from 0.12 % on again.
    private const int RefusedPer100000 = 100;
    private const int EnoughPer100000 = 120;

    // Room light that swings by this many pulses is not subtracted well enough.
    private const int SwingToShut = 16;
    private const int SwingToOpen = 8;

    // A lamp that the sampling turns into a wave as slow as pulses: what subtraction leaves of it may be twice the wave, by where slots lie and how
    // often it truly flickers. Over a whole pulse it hides the pulse, over an eighth it may be what is taken for pulses, when they come once or
    // twice a cycle (an eighth more or less). In 1/16 pulse; open again at half. Of colours three eighths spoil the ratio.
    private const int LampToShut16 = 16;
    private const int LampInStepToShut16 = 2;
    private const int LampInColours16 = 6;
    private const int MostInCycle = 2;
    private const int InStepShift = 3;

    // A beat may have no pulse that is worth the name: for eight pulses after an interval that is half as long again or more,
    // and while intervals are uneven, the rate of the pulses may be too low.
    private const int OddForRate = 2;

    // The spectrum looks 8 s back.
    private const int AfterMovementMs = 8000;

    // Movement that is too little to shut the gate takes trust, a point for each mg.
    private const int MostLevelMg = 64;

    private GateTime _time;
    private GateLatch _latch;
    private Usable _usable;
    private Evidence _evidence;
    private long _moved256;
    private int _amplitude;
    private int _swing;
    private short _roomCycle16;
    private bool _isMoving;
    private bool _hasMoved;
    private bool _isHeld;
    private bool _isWeak;
    private bool _isFaint;
    private bool _isLit;
    private bool _isLamp;
    private bool _isBroken;
    private bool _havePartners;
    private byte _sinceLonger;
    private byte _levelMg;
    // How strict it is, two numbers of four bits: features that may stand out when it opens, and most doubt.
    private byte _strictness;
    private byte _doubt;

    /// <summary>Whether feet, arrival times, oxygen saturation and the rate of the pulses may be given now.</summary>
    public readonly bool IsOpen => _latch.IsOpen && (!_isHeld || _havePartners) && !_usable.IsBad;

    /// <summary>Whether a heart rate may be given now: as above, or under movement, where the spectrum vouches for itself.</summary>
    public bool IsOpenForRate { get; private set; }

    /// <summary>Whether a lamp that comes out of the sampling slowly may move the ratio of the colours, though pulses are right.</summary>
    public readonly bool IsLampInColours => _roomCycle16 != 0 && IsSwinging(LampInColours16);

    /// <summary>Why the gate is shut; none while it is open, even while a single pulse is held back.</summary>
    public readonly GateReason Reason => _latch.Reason;

    /// <summary>When the gate last opened or shut [1/256 tick].</summary>
    public readonly long SinceTicks256 => _latch.SinceTicks256;

    /// <summary>The pulses that opened the gate begin here: a reading should use nothing older [1/256 tick].</summary>
    public long TrustedFromTicks256 { get; private set; }

    /// <summary>Trust, 0 to 255; 0 while shut.</summary>
    public readonly byte Quality => IsOpen ? Sat255(255 - (16 * _evidence.Faults) - _levelMg) : (byte)0;

    private readonly int FaultsToOpen => _strictness >> 4;

    // Noise is convincing by chance for a pulse or two: after so many pulses that were not, as many have to be.
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
        _strictness = (byte)((tuning.LightFaultsToOpen << 4) | tuning.Doubt);
        _sinceLonger = byte.MaxValue;
    }

    /// <summary>How far the height of the latest pulse is off the median of those known [1/64 octave].</summary>
    public readonly int HeightOff => _evidence.HeightOff;

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

    /// <summary>The sensor's settings changed: heights before and after do not compare.</summary>
    /// <param name="ticks256">When [1/256 tick].</param>
    public void Step(long ticks256)
    {
        _evidence.ForgetHeights();
        _amplitude = 0;
    }

    /// <summary>A pulse was found.</summary>
    /// <param name="pulse">The pulse.</param>
    /// <param name="ticks256">Its foot [1/256 tick].</param>
    /// <param name="signalLevel">Typical slope of pulses, as the detector keeps it.</param>
    /// <param name="noiseLevel">Typical slope of what is no pulse, in the same format.</param>
    public void Pulse(in PulseEvent pulse, long ticks256, int signalLevel, int noiseLevel)
    {
        _evidence.Add(_time, ticks256, pulse.AmplitudeCodes, pulse.StartsRun);
        _isWeak = 4L * signalLevel < (_latch.IsOpen ? 6L : 7L) * noiseLevel;
        _isHeld = _evidence.IsDoubtful;
        _amplitude = _amplitude == 0 ? pulse.AmplitudeCodes : _amplitude + Shift.Round(pulse.AmplitudeCodes - _amplitude, 2);
        long least = (long)pulse.LevelCodes * (_isFaint || !_latch.IsOpen ? EnoughPer100000 : RefusedPer100000);
        _isFaint = pulse.LevelCodes > 0 && _amplitude * 100_000L < least;
        _sinceLonger = _evidence.IsLonger ? (byte)0 : _sinceLonger < byte.MaxValue ? (byte)(_sinceLonger + 1) : _sinceLonger;
        if (!_latch.IsOpen && _evidence.Count == SignedHalf8.Length)
        {
            _doubt = IsConvincing() ? (byte)(_doubt > 0 ? _doubt - 1 : 0) : (byte)(_doubt < MostDoubt ? _doubt + 1 : MostDoubt);
        }

        if (_evidence.IsCut && !_havePartners)
        {
            _isBroken = true;
            _evidence.Clear();
            _evidence.Add(_time, ticks256, pulse.AmplitudeCodes, startsRun: true);
        }
    }

    /// <summary>Whether pulses and beats of the ECG go together one to one: then the pulses are the heart's, however odd its rhythm.</summary>
    /// <param name="havePartners">Whether the latest eight beats have a pulse at the usual time each.</param>
    public void Partners(bool havePartners) => _havePartners = havePartners;

    /// <summary>How much the sensor moves.</summary>
    /// <param name="levelMg">Level of movement [mg].</param>
    /// <param name="isMoving">Whether that is movement, by its own hysteresis.</param>
    public void Movement(int levelMg, bool isMoving)
    {
        _levelMg = (byte)(levelMg < 0 ? 0 : levelMg > MostLevelMg ? MostLevelMg : levelMg);
        _isMoving = isMoving;
    }

    /// <summary>What the room's light does.</summary>
    /// <param name="ambientCodes">Its level [codes].</param>
    /// <param name="swingCodes">How much it moves [codes].</param>
    /// <param name="cycle16">Length of its cycles [1/16 of a tenth of a second], where it goes up and down evenly and not with the heart; 0 where not.</param>
    public void Ambient(int ambientCodes, int swingCodes, int cycle16)
    {
        _swing = swingCodes;
        _roomCycle16 = (short)cycle16;
    }

    /// <summary>Time goes on: judges anew.</summary>
    /// <param name="ticks256">Now [1/256 tick], never less than before.</param>
    /// <returns>Whether the gate opened or shut (the rate alone aside).</returns>
    public bool Advance(long ticks256)
    {
        GateReason reason = Judge(ticks256);
        bool hasChanged = _latch.Next(_time, ticks256, reason);
        if (hasChanged && _latch.IsOpen)
        {
            _doubt = 0;
            TrustedFromTicks256 = _evidence.Back(_time, FewestPulses - 1);
        }
        else if (hasChanged)
        {
            Forget();
        }

        bool isRecent = _hasMoved && _time.Units(ticks256 - _moved256) < _time.FromMs(AfterMovementMs);
        bool isHidden = reason is GateReason.NoContact or GateReason.Saturated or GateReason.NoSamples or GateReason.Ambient;
        bool isSteady = _sinceLonger >= SignedHalf8.Length && _evidence.IntervalFaults <= OddForRate;
        isSteady |= _havePartners;
        IsOpenForRate = !_usable.IsBad && (_latch.IsOpen ? isSteady : isRecent && !isHidden && !_isFaint);
        return hasChanged;
    }

    private GateReason Judge(long ticks256)
    {
        GateReason usable = _usable.Judge(_time, ticks256);
        if (usable != GateReason.None)
        {
            return usable;
        }

        _isLamp = IsLamp();
        _isLit = _amplitude > 0 && _swing > (long)(_isLit ? SwingToOpen : SwingToShut) * _amplitude;
        if (_isMoving)
        {
            _moved256 = ticks256;
            _hasMoved = true;
            Forget();
            return GateReason.Movement;
        }

        if (_isLit || _isLamp)
        {
            return GateReason.Ambient;
        }

        bool isBroken = _isBroken;
        _isBroken = false;
        if (isBroken && _latch.IsOpen && !_havePartners)
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
            return _isWeak || _isFaint ? GateReason.TooWeak : _evidence.Unexplained > FaultsToStay && !_havePartners ? GateReason.Irregular : GateReason.None;
        }

        if (count < FewestPulses || _evidence.IntervalCount < FewestIntervals)
        {
            return _latch.Reason is GateReason.TooWeak or GateReason.Irregular ? _latch.Reason : GateReason.Waiting;
        }

        return _isWeak || _isFaint ? GateReason.TooWeak
            : !_havePartners && (_doubt > 0 || _isHeld || !IsConvincing()) ? GateReason.Irregular
            : GateReason.None;
    }

    private readonly bool IsLamp()
    {
        bool isSlow = _roomCycle16 != 0 && _roomCycle16 <= RoomCycle.LongestOfPulse16;
        int half = _isLamp ? 1 : 0;
        return isSlow && (IsSwinging(LampToShut16 >> half) || (IsSwinging(LampInStepToShut16 >> half) && IsInStep()));
    }

    /// <summary>Whether the room swings by more than a share of the pulse [1/16].</summary>
    private readonly bool IsSwinging(int share16) => _amplitude > 0 && 16L * _swing > (long)share16 * _amplitude;

    /// <summary>Whether the latest four pulses came with the cycles of the room.</summary>
    private readonly bool IsInStep()
    {
        int pulses = _evidence.LatestFour;
        if (pulses == 0)
        {
            return _isLamp;
        }

        // 1/16 of a tenth is 25/4 ms.
        int cycles = 4 * _time.FromMs(Shift.Floor(25 * _roomCycle16, 2));
        bool isInStep = false;
        for (int perCycle = 1; perCycle <= MostInCycle; perCycle++)
        {
            isInStep |= Sat.Abs32((perCycle * pulses) - cycles) <= Shift.Floor(cycles, InStepShift);
        }

        return isInStep;
    }

    /// <summary>Whether the last five to eight pulses are enough alike to open.</summary>
    private readonly bool IsConvincing() =>
        _evidence.Faults <= FaultsToOpen - (SignedHalf8.Length - _evidence.Count) && !_evidence.HasCut();

    private void Forget()
    {
        _evidence.Clear();
        _isHeld = false;
    }

    private static byte Sat255(int trust) => trust < 0 ? (byte)0 : (byte)trust;
}
