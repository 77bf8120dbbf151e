// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pulses;

/// <summary>First stage: codes to working samples, sums of minus the light; bridges short gaps and changes of settings.</summary>
/// <remarks>
/// Input: codes of up to 24 bits.
/// Product: none.
/// Accumulator: 32 bits: sums of up to five codes, 27 bits; the line of a bridge has 5 fraction bits, 30 bits.
/// Worst case: a bridge over the full range, 25 bits and 5 fraction bits.
/// Output: exact sums; the line within 2 codes at its end.
/// </remarks>
public struct LightInput
{
    private const int LineBits = 5;
    private int _sign;
    private int _zeroCode;
    private int _decimation;
    private int _sum;
    private int _last;
    private int _line;
    private int _lineStep;
    private int _settling;
    private int _lightBefore;
    private bool _isMarked;
    private bool _isBridgeNew;
    private bool _isBridgeShort;
    private int _shortBridge;

    /// <summary>The working sample that is complete.</summary>
    public int Value { get; private set; }

    /// <summary>Samples already in the next working sample.</summary>
    public int Phase { get; private set; }

    /// <summary>Samples of a bridge still to come.</summary>
    public int FillLeft { get; private set; }

    /// <summary>How much higher the working samples are than they would have been before a change of settings; 0 for no change.</summary>
    public int Jump { get; private set; }

    /// <summary>By which ratio the light has changed with it [1/256], 16 to 4096.</summary>
    public int Ratio256 { get; private set; }

    /// <summary>Whether no working sample of the run has been taken yet.</summary>
    public bool IsFresh { get; private set; }

    /// <summary>Whether the working sample needs care: the first of a run, the first after a jump, or marked.</summary>
    public bool NeedsCare { get; private set; }

    /// <summary>Whether each sample is a working sample, as it came but for its sign: nothing settles, is marked or bridged.</summary>
    public readonly bool IsPlain => _decimation == 1 && _settling == 0 && !NeedsCare && FillLeft == 0;

    /// <summary>Minus the light of a code, while it is plain.</summary>
    /// <param name="code">The code.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly int PlainOf(int code) => _sign < 0 ? -code : code;

    /// <summary>A run of plain samples has passed.</summary>
    /// <param name="code">The last of them.</param>
    public void Pass(int code)
    {
        _last = PlainOf(code);
        Value = _last;
    }

    /// <summary>Prepares for a stream.</summary>
    /// <param name="windows">Lengths.</param>
    /// <param name="polarity">+1 when more light raises the code, −1 when it lowers it.</param>
    /// <param name="zeroCode">Code of no light.</param>
    public void Start(in PulseWindows windows, int polarity, int zeroCode)
    {
        this = default;
        _sign = -polarity;
        _zeroCode = zeroCode;
        _decimation = windows.Decimation;
        _shortBridge = windows.ShortBridge;
    }

    /// <summary>A run begins with the next sample.</summary>
    public void Restart()
    {
        _sum = 0;
        Phase = 0;
        FillLeft = 0;
        Jump = 0;
        _settling = 0;
        _isMarked = false;
        IsFresh = true;
        NeedsCare = true;
    }

    /// <summary>Samples are missing before the next one.</summary>
    /// <param name="count">How many; those of a bridge not yet begun are added.</param>
    public void Bridge(int count)
    {
        FillLeft += count;
        _isBridgeShort = FillLeft <= _shortBridge;
        _isBridgeNew = true;
    }

    /// <summary>The level jumps with the next sample and needs some time to settle.</summary>
    /// <param name="samples">How many samples.</param>
    public void Settle(int samples)
    {
        _lightBefore = _settling > 0 ? _lightBefore : LightAt(_last);
        _settling = samples + 1;
    }

    /// <summary>The next sample of the bridge: on a straight line; the last one again while the level settles.</summary>
    /// <param name="code">The code after the gap.</param>
    /// <returns>Whether a working sample is complete.</returns>
    public bool NextFilled(int code)
    {
        if (_isBridgeNew)
        {
            BeginLine(_sign < 0 ? -code : code);
        }

        FillLeft--;
        _line += _lineStep;
        _last = Shift.Round(_line, LineBits);
        Mark(!_isBridgeShort || _settling > 0);
        return Add(_last);
    }

    /// <summary>Takes a sample.</summary>
    /// <param name="code">Its code.</param>
    /// <returns>Whether a working sample is complete.</returns>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public bool Next(int code)
    {
        int value = _sign < 0 ? -code : code;
        _last = _settling > 0 ? Settled(value) : value;
        return Add(_last);
    }

    /// <summary>Received light at a level, counted from the code of no light.</summary>
    /// <param name="filling">Minus the light [codes].</param>
    public readonly int LightAt(int filling) => (_sign * _zeroCode) - filling;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private bool Add(int value)
    {
        _sum += value;
        if (++Phase < _decimation)
        {
            return false;
        }

        Value = _sum;
        _sum = 0;
        Phase = 0;
        return true;
    }

    /// <summary>Care was taken of the working sample.</summary>
    /// <returns>Whether it is marked: a part of it is not what the sensor gave, or was given while it settled.</returns>
    public bool EndCare()
    {
        bool isMarked = _isMarked;
        _isMarked = false;
        IsFresh = false;
        Jump = 0;
        NeedsCare = false;
        return isMarked;
    }

    // Once per gap: the line ends at the new code, one sample after the last missing one.
    private void BeginLine(int end)
    {
        _isBridgeNew = false;
        _line = _last << LineBits;
        _lineStep = _settling > 0 ? 0 : ((end - _last) << LineBits) / (FillLeft + 1);
    }

    private void Mark(bool isMarked)
    {
        _isMarked |= isMarked;
        NeedsCare |= isMarked;
    }

    private int Settled(int value)
    {
        Mark(true);
        if (--_settling > 0)
        {
            return IsFresh && Phase == 0 ? value : _last;
        }

        // The sums that are held move to the new level, so that no step is left.
        int jump = value - _last;
        Jump += jump * _decimation;
        _sum += jump * Phase;
        int after = LightAt(value);
        Ratio256 = 256;
        if (_lightBefore > 0 && after > 0)
        {
            int ratio = LongDivision.Rounded((ulong)after << 8, (uint)_lightBefore);
            Ratio256 = ratio < 16 ? 16 : ratio > 4096 ? 4096 : ratio;
        }

        return value;
    }
}
