// SPDX-License-Identifier: MIT
using System.Diagnostics.CodeAnalysis;
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics.X86;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Movement;

/// <summary>What the light's artefact is made of: the acceleration without gravity, each axis through four Laguerre functions.</summary>
/// <remarks>
/// <para>L(0) = (1 − p) / (1 − p/z), L(i + 1) = L(i) · (1/z − p) / (1 − p/z): a complete and orthogonal set for any pole p, so that four of them
/// say what a dozen delays would (Laguerre filters for this use: Gibbs and Asada 2005, abstract). Computed once for all colours, on a grid
/// of 50 to 99 Hz, or at the rate of a slower accelerometer.</para>
/// Input: codes of up to 20 bits, three axes.
/// Product: sum of codes × a factor of 31 bits; squares of 20 bits, 40 bits.
/// Accumulator: 64 bits for both; level of gravity Q19.12 in 32 bits.
/// Worst case: ±16 g clip at 2^18; all-passes may add up to 4 times that, clipped at 2^20.
/// Output: functions in 1/16384 g; powers are sums of four squares, 43 bits.
/// </remarks>
public partial struct MovementReference
{
    /// <summary>Axes.</summary>
    public const int Axes = 3;

    /// <summary>Functions of each axis.</summary>
    public const int Functions = 4;

    /// <summary>Lowest rate of an accelerometer, and of light beside it [Hz].</summary>
    public const int MinimumRateHz = 12;

    /// <summary>Highest rate of an accelerometer, and of light beside it [Hz].</summary>
    public const int MaximumRateHz = 1600;

    /// <summary>Largest magnitude of a function.</summary>
    internal const int FunctionRail = (1 << 20) - 1;

    private const int Rail = (1 << 18) - 1;
    private const int GravityBits = 12;
    private const int SlowGridHz = 38;
    private const int PowerShift = 4;
    private const int LeastShareShift = 4;

    private Word12 _functions;
    private Word4 _sums;
    private Word4 _gravity;
    private Power4 _meanPowers;
    private int _decimation;
    private int _phase;
    private int _scale;
    private int _poleShift;
    private int _levelShift;
    private int _learningMask;
    private int _meanSquare;
    private bool _isFresh;
    private Byte3 _powerBits;

    /// <summary>Steps of the grid taken so far, modulo 2^32: a change says that there is something new.</summary>
    public int Steps { get; private set; }

    /// <summary>Whether weights may move at this step: at each where the grid is slow, else at each second one, which is enough.</summary>
    public readonly bool IsForLearning => (Steps & _learningMask) == 0;

    /// <summary>Whether there is so little movement that nothing may be learned from it: the bounds of <see cref="MovementLevel"/>, over half a second.</summary>
    public bool IsStill { get; private set; }

    /// <summary>The functions: element 4 a + i is function i of axis a [1/16384 g].</summary>
    [UnscopedRef]
    public readonly ref readonly Word12 Values => ref _functions;

    /// <summary>Whether a rate and a weight of the codes are allowed.</summary>
    /// <param name="rateHz">Rate of the accelerometer [Hz], 12 to 1600.</param>
    /// <param name="codesPerG">Codes for 1 g, 16 to 2^19.</param>
    public static bool IsAllowed(int rateHz, int codesPerG) =>
        rateHz >= MinimumRateHz && rateHz <= MaximumRateHz && codesPerG >= 16 && codesPerG <= 1 << 19;

    /// <summary>Steps of the grid in a second [Hz] for an accelerometer of a rate: its own below 100 Hz, else 50 to 99.</summary>
    /// <param name="rateHz">Rate of the accelerometer [Hz].</param>
    public static int GridRateHz(int rateHz) => rateHz < 100 ? rateHz : rateHz / (rateHz / 50);

    /// <summary>The shift of the high-pass that light and acceleration share, for a rate: corner 0.2 to 0.4 Hz.</summary>
    /// <param name="rateHz">Rate [Hz].</param>
    public static int LevelShift(int rateHz)
    {
        int shift = 3;
        while (rateHz >> shift > 2)
        {
            shift++;
        }

        return shift;
    }

    /// <summary>Prepares for a stream and drops all state.</summary>
    /// <param name="rateHz">Rate of the accelerometer [Hz], 12 to 1600.</param>
    /// <param name="codesPerG">Codes for 1 g, 16 to 2^19.</param>
    /// <returns>Whether the arguments are allowed.</returns>
    public bool Start(int rateHz, int codesPerG)
    {
        if (!IsAllowed(rateHz, codesPerG))
        {
            return false;
        }

        this = default;
        _decimation = rateHz < 100 ? 1 : rateHz / 50;

        // 16384 units in 1 g, as a factor with 16 more bits.
        _scale = (int)((1L << 30) / ((long)codesPerG * _decimation));
        int grid = GridRateHz(rateHz);
        _poleShift = grid < SlowGridHz ? 1 : 2;
        _learningMask = grid < SlowGridHz ? 0 : 1;
        _levelShift = LevelShift(grid);
        _isFresh = true;
        IsStill = true;
        return true;
    }

    /// <summary>b with 2^(b − 1) ≤ power of an axis &lt; 2^b: the sum of the squares of its functions, at least their mean over half a second, and at
    /// least a sixteenth of all axes' (an axis that only has noise is not learned from faster than it deserves).</summary>
    /// <param name="axis">0, 1 or 2.</param>
    public readonly int PowerBits(int axis) => IsStill ? BitsOf(_meanPowers[axis], LeastPower) : _powerBits[axis];

    private readonly long LeastPower => (_meanPowers[0] + _meanPowers[1] + _meanPowers[2]) >> LeastShareShift;

    /// <summary>Takes the next sample of the three axes.</summary>
    /// <param name="x">First axis.</param>
    /// <param name="y">Second axis.</param>
    /// <param name="z">Third axis.</param>
    public void Next(int x, int y, int z)
    {
        if (_decimation > 1)
        {
            x += _sums[0];
            y += _sums[1];
            z += _sums[2];
            bool isFull = ++_phase == _decimation;
            _sums[0] = isFull ? 0 : x;
            _sums[1] = isFull ? 0 : y;
            _sums[2] = isFull ? 0 : z;
            if (!isFull)
            {
                return;
            }

            _phase = 0;
        }

        if (Avx2.IsSupported)
        {
            _ = StepLanes(new ReadOnlySpan<int>(in x), new ReadOnlySpan<int>(in y), new ReadOnlySpan<int>(in z));
            return;
        }

        int square = AdvanceAxis(0, Scaled(x));
        square += AdvanceAxis(Functions, Scaled(y));
        EndStep(square + AdvanceAxis(2 * Functions, Scaled(z)));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private readonly int Scaled(int sum) => Wide.Narrow(Wide.RoundWithRoom((long)sum * _scale, 16), Rail);

    // An axis one step on. Squares in 1/1024 g, and a quarter of each, so that 16 g three times stay within 30 bits.
    private int AdvanceAxis(int first, int value)
    {
        int high = WithoutGravity(Shift.Floor(first, 2), value);
        Advance(first, high);
        int coarse = Shift.Floor(high, 4);
        return Shift.Floor(coarse * coarse, 2);
    }

    private void EndStep(int square)
    {
        _isFresh = false;
        Steps = unchecked(Steps + 1);
        if (IsForLearning)
        {
            FindPowers();
        }

        _meanSquare += Shift.Round(square - _meanSquare, _levelShift);
        bool wasStill = IsStill;
        IsStill = IsStillAt(_meanSquare, wasStill);
        KeepPowerBits(wasStill);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static bool IsStillAt(int meanSquare, bool isStill)
    {
        int bound = isStill ? MovementLevel.StillUpToMg : MovementLevel.StillBelowMg;
        return meanSquare < Shift.Floor(bound * bound, 2);
    }

    // The level has some bits more, so that a slow mean moves by less than a unit.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private int WithoutGravity(int axis, int value)
    {
        if (_isFresh)
        {
            _gravity[axis] = value << GravityBits;
        }

        int high = Sat.Narrow(value - Shift.RoundWithRoom(_gravity[axis], GravityBits), Rail);
        _gravity[axis] += Shift.RoundWithRoom(high << GravityBits, _levelShift);
        return high;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private void Advance(int first, int input)
    {
        // Differences have 22 bits: adding the half before the shift rounds as Shift.Round does.
        Span<int> functions = ((Span<int>)_functions).Slice(first, Functions);
        int half = 1 << (_poleShift - 1);
        int before = functions[0];
        int now = before + Shift.Floor(input - before + half, _poleShift);
        functions[0] = now;
        now = AllPass(ref functions[1], now, ref before, half);
        now = AllPass(ref functions[2], now, ref before, half);
        _ = AllPass(ref functions[3], now, ref before, half);
    }

    // y = p y' + x' − p x with p = 1 − 2^−shift: the difference (y' − x) less its 2^shift-th, and x'.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private readonly int AllPass(ref int output, int input, ref int before, int half)
    {
        int old = output;
        int difference = old - input;
        int next = Sat.Narrow(difference - Shift.Floor(difference + half, _poleShift) + before, FunctionRail);
        output = next;
        before = old;
        return next;
    }

    private void FindPowers()
    {
        for (int axis = 0; axis < Axes; axis++)
        {
            long power = 0;
            foreach (int value in ((ReadOnlySpan<int>)_functions).Slice(axis * Functions, Functions))
            {
                power += (long)value * value;
            }

            AddPower(axis, power);
        }
    }

    // For every colour that asks, once after the powers have changed. Nobody asks while it is still: they are not kept then.
    private void KeepPowerBits(bool wasStill)
    {
        if (IsStill || !(wasStill || IsForLearning))
        {
            return;
        }

        long least = LeastPower;
        for (int axis = 0; axis < Axes; axis++)
        {
            _powerBits[axis] = (byte)BitsOf(_meanPowers[axis], least);
        }
    }

    private static int BitsOf(long power, long least) => Wide.Bits(power > least ? power : least);

    // Up at once, down slowly: the step is never larger than the present power allows.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private void AddPower(int axis, long power)
    {
        long mean = _meanPowers[axis];
        mean += Wide.RoundWithRoom(power - mean, PowerShift);
        _meanPowers[axis] = power > mean ? power : mean;
    }
}
