// SPDX-License-Identifier: MIT
using SensorSim.Body.Movement;
using SensorSim.Grading.Groups;
using SensorSim.Scenarios;
using SensorSim.Scoring;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Grading.Running;

/// <summary>What a person does, as far as a gate cares.</summary>
internal enum DayPart
{
    /// <summary>Still: asleep, lying, sitting, standing.</summary>
    Rest,

    /// <summary>At a desk: typing and gestures.</summary>
    Desk,

    /// <summary>Walking.</summary>
    Walking,

    /// <summary>Running.</summary>
    Running,
}

/// <summary>Tenths of a second in which a reading could have stood, and did, by what the person did.</summary>
/// <remarks>A reading stands for 5 s from its emission on, or until its gate shuts: as the scores of the command count it, but by parts of the day.</remarks>
internal sealed class DayShares
{
    private const long TenthNs = 100_000_000;
    private const int ValidTenths = 50;
    private readonly long[] _usable = new long[Enum.GetValues<DayPart>().Length];
    private readonly long[] _available = new long[Enum.GetValues<DayPart>().Length];

    private DayShares()
    {
    }

    /// <summary>Readings of the kind.</summary>
    public long Given { get; private set; }

    /// <summary>Usable tenths of a second.</summary>
    public long Usable(DayPart part) => _usable[(int)part];

    /// <summary>Of these, with a reading.</summary>
    public long Available(DayPart part) => _available[(int)part];

    /// <summary>Counts a run.</summary>
    public static DayShares Of(Scenario scenario, GradedRun run, MarkKind kind, bool isLight)
    {
        var shares = new DayShares();
        int tenths = (int)(scenario.DurationS * 10);
        bool[] ecg = Unusable(run, ChannelName.Ecg, tenths);
        bool[] light = Unusable(run, ChannelName.Infrared, tenths);
        bool[] standing = shares.Standing(run, kind, isLight, tenths);
        ChoiceCourse activity = scenario.Values.Course(MovementKeys.Activity);
        Course gestures = scenario.Values.Course(HandMovementKeys.GesturesPerMin);
        var part = DayPart.Rest;
        for (int i = (int)(run.Report.ScoredBeginNs / TenthNs); i < run.Report.ScoredEndNs / TenthNs; i++)
        {
            if (i % 10 == 0)
            {
                part = Part(activity.Value(i / 10.0), gestures.Value(i / 10.0));
            }

            bool isUsable = kind switch
            {
                MarkKind.HeartRateFusedBpm => !ecg[i] || !light[i],
                MarkKind.ArrivalTimeMs or MarkKind.ArrivalSpotMs => !ecg[i] && !light[i],
                _ => isLight ? !light[i] : !ecg[i],
            };
            shares._usable[(int)part] += isUsable ? 1 : 0;
            shares._available[(int)part] += isUsable && standing[i] ? 1 : 0;
        }

        return shares;
    }

    /// <summary>What the person does at a time.</summary>
    /// <param name="scenario">The scenario.</param>
    /// <param name="seconds">Body time [s].</param>
    public static DayPart PartAt(Scenario scenario, double seconds) =>
        Part(scenario.Values.Course(MovementKeys.Activity).Value(seconds), scenario.Values.Course(HandMovementKeys.GesturesPerMin).Value(seconds));

    private static DayPart Part(string activity, double gesturesPerMin) => activity switch
    {
        "walking" => DayPart.Walking,
        "running" => DayPart.Running,
        _ => gesturesPerMin > 0 ? DayPart.Desk : DayPart.Rest,
    };

    private static bool[] Unusable(GradedRun run, ChannelName channel, int tenths)
    {
        var unusable = new bool[tenths];
        foreach (UnusableStretch stretch in run.List.Unusable.Where(s => s.Channel == channel))
        {
            int begin = (int)Math.Clamp(stretch.BeginNs / TenthNs, 0, tenths);
            int end = (int)Math.Clamp((stretch.EndNs + TenthNs - 1) / TenthNs, begin, tenths);
            Array.Fill(unusable, true, begin, end - begin);
        }

        return unusable;
    }

    private bool[] Standing(GradedRun run, MarkKind kind, bool isLight, int tenths)
    {
        bool isJoint = kind is MarkKind.ArrivalTimeMs or MarkKind.ArrivalSpotMs;
        var standing = new bool[tenths + ValidTenths];
        foreach (TimedMark mark in run.List.Marks)
        {
            int at = (int)Math.Clamp(mark.EmittedTimeNs / TenthNs, 0, tenths);
            if (DayGroup.Is(mark.Kind, mark.Channel, kind, isLight))
            {
                Given++;
                Array.Fill(standing, true, at, ValidTenths);
            }
            else if (kind != MarkKind.HeartRateFusedBpm
                && (mark.Kind == MarkKind.JointGateShut && isJoint
                    || mark.Kind == MarkKind.GateShut && !isJoint && mark.Channel == ChannelName.Ecg != isLight))
            {
                Array.Fill(standing, false, at, ValidTenths);
            }
        }

        return standing;
    }
}
