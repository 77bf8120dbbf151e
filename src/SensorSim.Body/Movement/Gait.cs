// SPDX-License-Identifier: MIT
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

        FillTurns(block);
        if (_variation != 0)
        {
            FillVariation(block);
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
            StrideSegment segment = block.Memory.Segment(_phase, node);
            for (long step = segment.FirstStep; step < segment.EndStep; step++)
            {
                ref MovementMemory.KnownStep known = ref Known(block, step);
                known.Seconds = double.IsNaN(known.Seconds) ? segment.StepSeconds(step) : known.Seconds;
                if (known.Seconds <= end && known.Seconds + StrikeSeconds > begin)
                {
                    Transient.Add(block, known.Seconds, GaitShape.StrikeTauSeconds, StrikeG(step, known.Seconds, known.Normal));
                }
            }
        }
    }

    private void FillTurns(MovementBlock block)
    {
        int done = 0;
        while (done < block.Count)
        {
            double now = block.Seconds(done);
            long node = (long)Math.Floor(now);
            StrideSegment segment = block.Memory.Segment(_phase, node);
            int end = (int)Math.Min(block.Count, block.Grid.FirstAtOrAfter(node + 1) - block.First);
            for (; done + 4 <= end; done += 4)
            {
                segment.Turns(block.FourSeconds(done) - Vector256.Create((double)node)).StoreUnsafe(ref block.Turns[done]);
            }

            for (; done < end; done++)
            {
                block.Turns[done] = segment.Turns(block.Seconds(done) - node);
            }
        }
    }

    private void FillVariation(MovementBlock block)
    {
        long last = long.MinValue;
        double from = 0;
        double grows = 0;
        double current = double.NaN;
        for (int i = 0; i < block.Count; i++)
        {
            // Four samples of one step at a time.
            while (i + 4 <= block.Count)
            {
                Vector256<double> four = Vector256.LoadUnsafe(ref block.Turns[i]) * 2;
                if (Vector256.Floor(four) != Vector256.Create(current))
                {
                    break;
                }

                Vector256<double> place = four - Vector256.Create(current);
                Vector256<double> rise = place * place * (Vector256.Create(3.0) - (2 * place));
                (Vector256.Create(from) + (grows * rise)).StoreUnsafe(ref block.Gains[i]);
                i += 4;
            }

            if (i == block.Count)
            {
                break;
            }

            double steps = 2 * block.Turns[i];
            double whole = Math.Floor(steps);
            current = whole;
            if ((long)whole != last)
            {
                last = (long)whole;
                from = Gain(Known(block, last).Normal, _variation);
                grows = Gain(Known(block, last + 1).Normal, _variation) - from;
            }

            block.Gains[i] = from + (grows * ChoiceWeight.Rise(steps - whole));
        }
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
            known.Number = step;
            known.Seconds = double.NaN;
            known.Normal = Draw(step);
        }

        return ref known;
    }

    private static double Gain(double draw, double variation) => Math.Max(0, 1 + (variation * draw));

    private Axes StrikeG(long step, double seconds, double draw)
    {
        double gain = Gain(draw, 2 * _variation);
        Axes size = (_styles[0].SizeG(seconds) * _styles[0].Shape.Strike) + (_styles[1].SizeG(seconds) * _styles[1].Shape.Strike);
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
}
