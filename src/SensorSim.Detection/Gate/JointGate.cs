// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pipeline;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Gate;

/// <summary>Whether both signals are steady and go together, one pulse to a beat. A value of fixed size: an assignment copies the whole state.</summary>
/// <remarks>
/// Input: both gates, arrival times in units of 16 µs (15 bits), beats and pulses without a partner.
/// Product: none.
/// Accumulator: 32 bits.
/// Worst case: arrival times above 524 ms clip.
/// Output: open or shut with a reason; a quality of 0 to 255.
/// </remarks>
public struct JointGate
{
    // Of the last eight beats and pulses: how many must have a partner.
    private const int PairedToOpen = 6;
    private const int PairedToStay = 5;
    private const int FewestOutcomes = 4;

    // Arrival times of one heart lie this close to their median, chance ones are spread over 370 ms.
    private const int ReachUs = 16_000;
    // A single one this far off is held back.
    private const int OddUs = 7000;
    private const int StrayToOpen = 1;
    private const int StrayToStay = 2;

    // From beat to beat arrival times change by this much in the mean, at most: their spread is 0.9 of it, and single ones
    // have to be right within 10 ms.
    private const int ChangeToOpenUs = 9000;
    private const int ChangeToStayUs = 13_000;

    // A single one is given while they change by no more than this: then one that is off stands out.
    private const int ChangeToGiveUs = 8000;

    private const byte HeldByGates = 1;
    private const byte HeldAsOdd = 2;

    private const int SilenceMs = 4000;
    private const int Mask = SignedHalf8.Length - 1;

    private GateTime _time;
    private GateLatch _latch;
    private SignedHalf8 _arrivals;
    private long _last256;
    private byte _outcomes;
    private byte _outcomeCount;
    private byte _arrivalAt;
    private byte _arrivalCount;
    private byte _stray;
    private byte _held;
    private short _change;

    /// <summary>Whether an arrival time may be given now.</summary>
    public readonly bool IsOpen => _latch.IsOpen && _held == 0;

    /// <summary>Whether an arrival time may enter a median of many: single ones that are off do not move it.</summary>
    public readonly bool IsOpenForMedian => _latch.IsOpen && (_held & HeldByGates) == 0;

    /// <summary>Why the gate is shut; none while it is open, even while a single beat is held back.</summary>
    public readonly GateReason Reason => _latch.Reason;

    /// <summary>When the gate last opened or shut [1/256 tick].</summary>
    public readonly long SinceTicks256 => _latch.SinceTicks256;

    /// <summary>Trust, 0 to 255; 0 while shut.</summary>
    public readonly byte Quality => IsOpen ? (byte)(255 - (24 * (_outcomeCount - Paired())) - (24 * _stray)) : (byte)0;

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
    }

    /// <summary>An R peak and a foot were paired.</summary>
    /// <param name="ticks256">The foot [1/256 tick].</param>
    /// <param name="timeUs">Arrival time [µs].</param>
    public void Arrival(long ticks256, int timeUs)
    {
        int scaled = Shift.Round(timeUs, 4);
        _arrivals[_arrivalAt] = scaled > short.MaxValue ? short.MaxValue : scaled < 0 ? (short)0 : (short)scaled;
        _arrivalAt = (byte)((_arrivalAt + 1) & Mask);
        _arrivalCount += _arrivalCount < SignedHalf8.Length ? (byte)1 : (byte)0;
        _last256 = ticks256;
        AddOutcome(1);
        Compare();
    }

    /// <summary>An R peak found no foot, or a foot no R peak.</summary>
    /// <param name="ticks256">Its place [1/256 tick].</param>
    public void Unpaired(long ticks256) => AddOutcome(0);

    /// <summary>Time goes on: judges anew, after both gates have.</summary>
    /// <param name="ecg">The gate of the ECG.</param>
    /// <param name="pulse">The gate of the light.</param>
    /// <param name="ticks256">Now [1/256 tick], never less than before.</param>
    /// <returns>Whether the gate opened or shut.</returns>
    public bool Advance(in EcgGate ecg, in PulseGate pulse, long ticks256)
    {
        _held = (byte)((_held & HeldAsOdd) | (ecg.IsOpen && pulse.IsOpen ? 0 : HeldByGates));
        GateReason reason = ecg.Reason != GateReason.None ? ecg.Reason : pulse.Reason;
        if (reason == GateReason.None)
        {
            reason = Judge(ticks256);
        }
        else
        {
            Forget();
        }

        bool hasChanged = _latch.Next(_time, ticks256, reason);
        if (hasChanged && !_latch.IsOpen)
        {
            Forget();
        }

        return hasChanged;
    }

    private GateReason Judge(long ticks256)
    {
        if (_outcomeCount < FewestOutcomes)
        {
            return _latch.Reason == GateReason.Irregular ? GateReason.Irregular : GateReason.Waiting;
        }

        int lost = _outcomeCount - Paired();
        int lostAllowed = SignedHalf8.Length - (_latch.IsOpen ? PairedToStay : PairedToOpen);
        int strayAllowed = _latch.IsOpen ? StrayToStay : StrayToOpen;
        bool isSilent = _time.Units(ticks256 - _last256) > _time.FromMs(SilenceMs);

        // Before there are eight, fewer may be lost.
        bool isOff = lost > (_outcomeCount < SignedHalf8.Length && !_latch.IsOpen ? 0 : lostAllowed) || _stray > strayAllowed
            || IsChanging(_latch.IsOpen ? ChangeToStayUs : ChangeToOpenUs);
        return isOff || isSilent ? GateReason.Irregular : GateReason.None;
    }

    private void AddOutcome(int paired)
    {
        _outcomes = (byte)(((_outcomes << 1) | paired) & 255);
        _outcomeCount += _outcomeCount < SignedHalf8.Length ? (byte)1 : (byte)0;
    }

    private readonly int Paired()
    {
        int paired = 0;
        for (int i = 0; i < _outcomeCount; i++)
        {
            paired += (_outcomes >> i) & 1;
        }

        return paired;
    }

    private void Compare()
    {
        int median = Evidence.MedianOf(_arrivals, _arrivalCount);
        bool isOdd = Sat.Abs32(_arrivals[(_arrivalAt - 1) & Mask] - median) > OddUs / 16;
        _stray = 0;
        for (int i = 0; i < _arrivalCount; i++)
        {
            _stray += Sat.Abs32(_arrivals[i] - median) > ReachUs / 16 ? (byte)1 : (byte)0;
        }

        // The ring's oldest and newest are no neighbours in time.
        int sum = 0;
        for (int i = 2; i <= _arrivalCount; i++)
        {
            sum += Sat.Abs32(_arrivals[(_arrivalAt - i + 1) & Mask] - _arrivals[(_arrivalAt - i) & Mask]);
        }

        _change = Sat.Narrow16(sum);
        _held = (byte)((_held & HeldByGates) | (isOdd || IsChanging(ChangeToGiveUs) ? HeldAsOdd : 0));
    }

    // The mean of the changes in whole units of 16 µs is above the bound: their sum reaches the next unit times their number.
    private readonly bool IsChanging(int boundUs) =>
        _arrivalCount >= 2 && _change >= (Shift.Floor(boundUs, 4) + 1) * (_arrivalCount - 1);

    private void Forget()
    {
        _outcomeCount = 0;
        _arrivalCount = 0;
        _arrivalAt = 0;
        _stray = 0;
        _change = 0;
        _held &= HeldByGates;
    }
}
