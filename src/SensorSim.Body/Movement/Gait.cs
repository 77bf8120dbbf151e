// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SensorSim.Body.Rhythm;
using SensorSim.Body.Site;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Body.Movement;

/// <summary>Walking and running: lines at multiples of the stride, a heel strike at every step, sizes that vary from step to step.</summary>
/// <remarks>Immutable, and safe for several threads.</remarks>
internal sealed class Gait
{
    private const double WalkingHz = 1.9;
    private const double RunningHz = 2.7;
    private const double StrikeSeconds = Transient.EndX * GaitShape.StrikeTauSeconds;
    private readonly GaitStyle[] _styles;
    private readonly StridePhase _phase;
    private readonly KeyedRandom _steps;
    private readonly double _variation;

    /// <summary>Creates gait from its knobs.</summary>
    public Gait(KeyValues values, ulong seed)
    {
        ChoiceCourse activity = values.Course(MovementKeys.Activity);
        Course cadence = Cadence(values, activity);
        string site = values[SiteKeys.Site];
        _styles = [Style(values, activity, site, false), Style(values, activity, site, true)];
        Reference = activity.Words.FirstOrDefault(w => w != "rest") == "running" ? _styles[1] : _styles[0];
        ReferenceHz = ReferenceCadence(values, Reference == _styles[1]);
        _steps = new KeyedRandom(seed, "movement.step");
        _variation = values[MovementKeys.StepVariationPercent] * 0.01;
        _phase = new StridePhase(new WanderingPhase(
            new KeyedRandom(seed, "movement.stride"), cadence.Scaled(0.5), values[MovementKeys.CadenceSpreadHz] / 2, 0.005, 0.1));
        IsOff = _styles.All(s => s.IsOff);
    }

    /// <summary>Whether nobody ever walks or runs.</summary>
    public bool IsOff { get; }

    /// <summary>The gait that occurs first, walking if none does.</summary>
    public GaitStyle Reference { get; }

    /// <summary>Walking and running.</summary>
    public IReadOnlyList<GaitStyle> Styles => _styles;

    /// <summary>Cadence at which the reference is steady [Hz].</summary>
    public double ReferenceHz { get; }

    /// <summary>Mean power of the lines over that without variation: 1 + 26/35 v², as the mean square of the rise and of its complement.</summary>
    public double PowerGain => 1 + (26.0 / 35 * _variation * _variation);

    /// <summary>Acceleration at a time [g], by its definition.</summary>
    public Axes At(double seconds)
    {
        double turns = _phase.Turns(seconds);
        double variation = VariationAt(turns);
        Axes sum = default;
        foreach (GaitStyle style in _styles.Where(s => !s.IsOff))
        {
            double size = style.SizeG(seconds) * variation;
            double[][] f = style.Shape.Factors;
            for (int i = 0; i < GaitShape.Lines; i++)
            {
                PortableMath.SinCosTurns(turns * (i == 0 ? 1 : 2 * i), out double sin, out double cos);
                Axes line = new(
                    (f[0][2 * i] * sin) + (f[0][(2 * i) + 1] * cos),
                    (f[1][2 * i] * sin) + (f[1][(2 * i) + 1] * cos),
                    (f[2][2 * i] * sin) + (f[2][(2 * i) + 1] * cos));
                sum += size * line;
            }
        }

        for (long node = (long)Math.Floor(seconds - StrikeSeconds); node <= (long)Math.Floor(seconds); node++)
        {
            StrideSegment segment = _phase.Segment(node, StrideSegment.None);
            for (long step = segment.FirstStep; step < segment.EndStep; step++)
            {
                double at = segment.StepSeconds(step);
                sum += Transient.At((seconds - at) / GaitShape.StrikeTauSeconds) * StrikeG(step, at, Draw(step));
            }
        }

        return sum;
    }

    /// <summary>Adds the acceleration to a block.</summary>
    public void Add(MovementBlock block)
    {
        double begin = block.BeginSeconds;
        double end = block.EndSeconds;
        bool isSilent = _styles[0].IsSilent(begin - StrikeSeconds, end) && _styles[1].IsSilent(begin - StrikeSeconds, end);
        if (IsOff || isSilent)
        {
            return;
        }

        FillPhases(block);
        if (_variation != 0)
        {
            FillGains(block);
        }

        for (int i = 0; i < _styles.Length; i++)
        {
            if (!_styles[i].IsSilent(begin, end))
            {
                _styles[i].FillSizes(block, block.Spare.AsSpan(0, block.Count));
                block.Memory.Lines[i].Add(block, _phase, _variation != 0);
            }
        }

        for (long node = (long)Math.Floor(begin - StrikeSeconds); node <= (long)Math.Floor(end); node++)
        {
            ref readonly StrideSegment segment = ref block.Memory.Segment(_phase, node);
            long endStep = segment.EndStep;
            for (long step = segment.FirstStep; step < endStep; step++)
            {
                ref MovementMemory.KnownStep known = ref Known(block, step);
                if (double.IsNaN(known.Seconds))
                {
                    known.Seconds = segment.StepSeconds(step);
                    known.StrikeG = StrikeG(step, known.Seconds, known.Normal);
                }

                if (known.Seconds <= end && known.Seconds + StrikeSeconds > begin)
                {
                    Transient.Add(block, known.Seconds, block.Memory.StrikePace, known.StrikeG);
                }
            }
        }
    }

    // Groups of four reach beyond the end of a second; what stands there is then written over. Times go on from the second's first group in the
    // block: an absolute place.
    private void FillPhases(MovementBlock block)
    {
        ref double turns = ref MemoryMarshal.GetArrayDataReference(block.Turns);
        var step = Vector256.Create(4 * block.Grid.StepSeconds);
        for (int i = 0; i < block.Count;)
        {
            long node = (long)Math.Floor(block.Seconds(i));
            ref readonly StrideSegment segment = ref block.Memory.Segment(_phase, node);
            int end = block.FirstOf(node + 1);
            var c0 = Vector256.Create(segment.C0);
            var c1 = Vector256.Create(segment.C1);
            var c2 = Vector256.Create(segment.C2);
            var c3 = Vector256.Create(segment.C3);
            Vector256<double> u = block.FourSeconds(i) - Vector256.Create((double)node);
            for (; i < end; i += 4)
            {
                // As StrideSegment.Turns.
                Vector256<double> phase = c0 + (u * (c1 + (u * (c2 + (u * c3)))));
                phase.StoreUnsafe(ref turns, (nuint)i);
                u += step;
            }

            i = end;
        }

        // Steps that begin behind the last sample are nobody's: none is looked for.
        block.Turns.AsSpan(block.Count).Fill(block.Turns[block.Count - 1]);
    }

    // Sizes that vary from step to step.
    private void FillGains(MovementBlock block)
    {
        ref double turns = ref MemoryMarshal.GetArrayDataReference(block.Turns);
        ref double gains = ref MemoryMarshal.GetArrayDataReference(block.Gains);
        int count = block.Count;
        var step = new StepGain { Number = double.NaN };
        for (int i = 0; i < count; i += 4)
        {
            Vector256<double> whole = default;
            Vector256<double> rise = default;
            var number = Vector256.Create(step.Number);
            var from = Vector256.Create(step.From);
            var grows = Vector256.Create(step.Grows);
            for (; i < count; i += 4)
            {
                Vector256<double> steps = Vector256.LoadUnsafe(ref turns, (nuint)i) * 2;
                whole = Vector256.Floor(steps);
                Vector256<double> place = steps - whole;
                rise = place * place * (Vector256.Create(3.0) - (2 * place));
                if (whole != number)
                {
                    break;
                }

                (from + (grows * rise)).StoreUnsafe(ref gains, (nuint)i);
            }

            if (i < count)
            {
                GoOn(block, ref step, i, whole, rise);
            }
        }
    }

    // Sizes of four samples that do not all lie within the step of the ones before.
    private void GoOn(MovementBlock block, ref StepGain step, int i, Vector256<double> whole, Vector256<double> rise)
    {
        // Mostly the next step begins here.
        Vector256<double> isBefore = Vector256.Equals(whole, Vector256.Create(step.Number));
        Vector256<double> isNext = Vector256.Equals(whole, Vector256.Create(step.Number + 1));
        if (whole.GetElement(3) == step.Number + 1 && Vector256.EqualsAll((isBefore | isNext).AsInt64(), Vector256<long>.AllBitsSet))
        {
            Vector256<double> before = Vector256.Create(step.From) + (step.Grows * rise);
            step = NextStep(block, step.Number + 1, step.To);
            Vector256.ConditionalSelect(isNext, Vector256.Create(step.From) + (step.Grows * rise), before).StoreUnsafe(ref block.Gains[i]);
            return;
        }

        for (int lane = 0; lane < 4; lane++)
        {
            double number = whole.GetElement(lane);
            if (number != step.Number)
            {
                step = NextStep(block, number, Gain(Known(block, (long)number).Normal, _variation));
            }

            block.Gains[i + lane] = step.From + (step.Grows * rise.GetElement(lane));
        }
    }

    private StepGain NextStep(MovementBlock block, double number, double from)
    {
        double to = Gain(Known(block, (long)number + 1).Normal, _variation);
        return new StepGain { Number = number, From = from, To = to, Grows = to - from };
    }

    private double VariationAt(double turns)
    {
        double whole = Math.Floor(2 * turns);
        double from = Gain(Draw((long)whole), _variation);
        return from + ((Gain(Draw((long)whole + 1), _variation) - from) * ChoiceWeight.Rise((2 * turns) - whole));
    }

    private double Draw(long step) => _variation == 0 ? 0 : _steps.Normal(step);

    private ref MovementMemory.KnownStep Known(MovementBlock block, long step)
    {
        ref MovementMemory.KnownStep known = ref block.Memory.Step(step);
        if (known.Number != step)
        {
            FillSteps(block.Memory, step & -MovementMemory.StepsAtOnce);
        }

        return ref known;
    }

    private void FillSteps(MovementMemory memory, long first)
    {
        Span<double> normals = stackalloc double[MovementMemory.StepsAtOnce];
        normals.Clear();
        if (_variation != 0)
        {
            _steps.AddNormals(normals, first, 1);
        }

        for (int i = 0; i < normals.Length; i++)
        {
            memory.Step(first + i) = new MovementMemory.KnownStep { Number = first + i, Seconds = double.NaN, Normal = normals[i] };
        }
    }

    private static double Gain(double draw, double variation) => Math.Max(0, 1 + (variation * draw));

    private Axes StrikeG(long step, double seconds, double draw)
    {
        double gain = Gain(draw, 2 * _variation);
        Axes size = default;
        foreach (GaitStyle style in _styles)
        {
            size = style.IsOff ? size : size + (style.SizeG(seconds) * style.Shape.Strike);
        }

        return gain * (size with { Y = (step & 1) == 0 ? size.Y : -size.Y });
    }

    private static GaitStyle Style(KeyValues values, ChoiceCourse activity, string site, bool isRunning)
    {
        var shape = new GaitShape(site, isRunning, ReferenceCadence(values, isRunning));
        bool isGiven = values.IsSet(MovementKeys.AmplitudeG) || values.IsChanging(MovementKeys.AmplitudeG);
        Course amplitude = isGiven ? values.Course(MovementKeys.AmplitudeG) : new Course(shape.AmplitudeG);
        return new GaitStyle(shape, new ChoiceWeight(activity, isRunning ? "running" : "walking", GaitStyle.ChangeSeconds), new LiveSize(amplitude));
    }

    private static double ReferenceCadence(KeyValues values, bool isRunning)
    {
        double given = IsGiven(values) ? GivenCadence(values).BaseValue : 0;
        return given > 0 ? given : isRunning ? RunningHz : WalkingHz;
    }

    private static bool IsGiven(KeyValues values) => values.IsSet(MovementKeys.CadencePerBeat)
        || values.IsSet(MovementKeys.CadenceHz) || values.IsChanging(MovementKeys.CadenceHz);

    private static Course GivenCadence(KeyValues values) => values.IsSet(MovementKeys.CadencePerBeat)
        ? values.Course(HeartKeys.RateBpm).Scaled(values[MovementKeys.CadencePerBeat] / 60)
        : values.Course(MovementKeys.CadenceHz);

    /// <summary>Course of the cadence [Hz]. Not given: the usual one of what is done, going over with it; at rest it stays as it was.</summary>
    internal static Course Cadence(KeyValues values, ChoiceCourse activity)
    {
        if (IsGiven(values))
        {
            return GivenCadence(values);
        }

        static double Usual(string word) => word == "running" ? RunningHz : WalkingHz;
        return new Course(
            Usual(activity.Words.FirstOrDefault(w => w != "rest") ?? "walking"),
            activity.Changes.Where(c => c.Word != "rest")
                .Select(c => new CourseChange(c.AtSeconds, ChangeKind.Ramp, Usual(c.Word), GaitStyle.ChangeSeconds)),
            []);
    }

    // Size at the begin of a step, and how much it grows until the next one.
    private struct StepGain
    {
        public double Number;
        public double From;
        public double To;
        public double Grows;
    }
}
