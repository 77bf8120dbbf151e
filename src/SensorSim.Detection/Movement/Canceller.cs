// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Movement;

/// <summary>Takes off the light what the movement explains: normalised LMS, each axis by its own power.</summary>
/// <remarks>
/// <para>Weights move on the grid of the reference; between two of its steps the artefact goes on in a straight line. While the reference is still,
/// nothing is taken off and nothing is learned.</para>
/// Input: codes of up to 24 bits; functions of 21 bits.
/// Product: see <see cref="NormalisedStep"/>; slope × place 23 + 9 bits.
/// Accumulator: 64 bits there; level of the light Q24.6 in 32 bits.
/// Worst case: estimate and error clip at 2^24; errors count up to four times their mean.
/// Output: same format and delay as the input, the mean untouched.
/// </remarks>
public partial struct Canceller
{
    /// <summary>μ = 2^−5 for each axis once it has settled: the three together at most 3/32.</summary>
    public const int SettledShift = 5;

    private const int FirstShift = 4;
    private const int StepsBits = 5;
    private const int LeakShift = 10;
    private const int MeanShift = 5;
    private const int MeanFraction = 4;

    // What is learned has a rest of its own, about a twentieth of the pulse's power: where the light has no artefact, taking the estimate off
    // makes the pulse worse. So it has to take off a 32nd of the mean size, over about 5 s, before it is used, and a 128th to stay.
    private const int BenefitShift = 7;
    private const int StartShift = 5;
    private const int StayShift = 7;
    private const int SlopeRail = (1 << 22) - 1;
    private const int LevelFraction = 6;

    private Word12 _weights;
    private int _level;
    private int _steps;
    private int _learned;
    private int _estimate;
    private int _slope;
    private int _place256;
    private int _perLight256;
    private int _levelShift;
    private int _meanError;
    private int _meanInput;
    private int _leaking;
    private int _slowError;
    private int _slowInput;
    private bool _isHelping;
    private bool _isFresh;

    /// <summary>What was taken off the last sample [codes].</summary>
    public int Estimate { get; private set; }

    /// <summary>Whether it works; not while the reference is still.</summary>
    public bool IsActive { get; private set; }

    /// <summary>Mean magnitude of what is left of the light, without its level [codes]; meaningful while it works.</summary>
    public readonly int MeanErrorCodes => Shift.Round(_meanError, MeanFraction);

    /// <summary>Mean magnitude of the light before, without its level [codes]; meaningful while it works.</summary>
    public readonly int MeanInputCodes => Shift.Round(_meanInput, MeanFraction);

    /// <summary>Prepares for a stream and drops all state.</summary>
    /// <param name="lightRateHz">Rate of the light [Hz], 12 to 1600.</param>
    /// <param name="accelRateHz">Rate of the accelerometer [Hz], as the reference was started with.</param>
    /// <returns>Whether the arguments are allowed.</returns>
    public bool Start(int lightRateHz, int accelRateHz)
    {
        if (lightRateHz < MovementReference.MinimumRateHz || lightRateHz > MovementReference.MaximumRateHz
            || accelRateHz < MovementReference.MinimumRateHz || accelRateHz > MovementReference.MaximumRateHz)
        {
            return false;
        }

        this = default;
        int grid = MovementReference.GridRateHz(accelRateHz);
        grid = grid < lightRateHz ? grid : lightRateHz;
        _perLight256 = grid * 256 / lightRateHz;
        _levelShift = MovementReference.LevelShift(grid);
        _isFresh = true;
        return true;
    }

    /// <summary>The next sample comes after a gap or a step of the setting: the level is taken anew, the weights stay.</summary>
    public void Restart()
    {
        _isFresh = true;
        _estimate = 0;
        _slope = 0;
    }

    /// <summary>Takes the next sample of the light.</summary>
    /// <param name="light">The code.</param>
    /// <param name="reference">The movement up to now.</param>
    /// <param name="probe">Sees intermediate values.</param>
    /// <returns>The code without the artefact.</returns>
    public int Next<TProbe>(int light, in MovementReference reference, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        Word4 one = default;
        Span<int> lights = ((Span<int>)one).Slice(0, 1);
        lights[0] = light;
        Take(lights, default, reference, ref probe);
        return lights[0];
    }

    private void Step<TProbe>(int light, in MovementReference reference, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        if (_isFresh)
        {
            _isFresh = false;
            _level = light << LevelFraction;
        }

        _steps = reference.Steps;
        int input = WithoutLevel(ref _level, light);
        if (reference.IsStill)
        {
            _estimate = 0;
            _slope = 0;
            IsActive = false;
            return;
        }

        ref readonly Word12 functions = ref reference.Values;
        int estimate = NormalisedStep.Estimate(_weights, functions);
        int used = _isHelping ? estimate : 0;
        _slope = IsActive ? Sat.Narrow(used - _estimate, SlopeRail) : 0;
        _estimate = used;
        IsActive = true;
        if (reference.IsForLearning)
        {
            Learn(input, estimate, reference, functions);
        }

        probe.See(ProbePoint.MovementReference, functions[0]);
        probe.See(ProbePoint.CancellerPower, reference.PowerBits(0));
        probe.See(ProbePoint.CancellerWeight, _weights[0]);
    }

    // The level has 30 bits: there is room for both halves.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private readonly int WithoutLevel(ref int level, int light)
    {
        int input = Sat.Narrow(light - Shift.RoundWithRoom(level, LevelFraction), NormalisedStep.EstimateRail);
        level += Shift.RoundWithRoom(input << LevelFraction, _levelShift);
        return input;
    }

    private void Learn(int input, int estimate, in MovementReference reference, in Word12 functions)
    {
        // Steps of the light, taps, shade: they count as large errors usually are, so that one does not undo what was learned.
        int error = Sat.Narrow(input - estimate, (_meanError >> (MeanFraction - 2)) + 64);
        int size = Sat.Narrow(input, (_meanInput >> (MeanFraction - 2)) + 64);
        _meanError += Shift.Round((Sat.Abs32(error) << MeanFraction) - _meanError, MeanShift);
        _meanInput += Shift.Round((Sat.Abs32(size) << MeanFraction) - _meanInput, MeanShift);
        _slowError += Shift.Round((Sat.Abs32(error) << MeanFraction) - _slowError, BenefitShift);
        _slowInput += Shift.Round((Sat.Abs32(size) << MeanFraction) - _slowInput, BenefitShift);
        _isHelping = _slowError < _slowInput - Shift.Floor(_slowInput, _isHelping ? StayShift : StartShift);

        // Larger steps in the first seconds of movement.
        int shift = FirstShift + Shift.Floor(_learned, StepsBits);
        _learned += shift < SettledShift ? 1 : 0;
        for (int axis = 0; axis < MovementReference.Axes; axis++)
        {
            NormalisedStep.Learn(
                ref _weights, functions, axis * MovementReference.Functions, MovementReference.Functions, error, reference.PowerBits(axis), shift);
        }

        // One weight a step forgets a part of itself.
        _leaking = _leaking == Word12.Length - 1 ? 0 : _leaking + 1;
        _weights[_leaking] -= Shift.Round(_weights[_leaking], LeakShift);

        // More left than there was: these weights are wrong for this movement.
        if (_meanError > _meanInput + (_meanInput >> 3))
        {
            NormalisedStep.Shrink(ref _weights, 3);
        }
    }
}
