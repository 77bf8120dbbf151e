// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;

namespace SensorSim.Scoring.Readings;

/// <summary>Which readings are scored, and how far one may be off before it counts as wrong.</summary>
public static class ReadingGate
{
    // What is older than this when it is given [ns] says nothing of now: twice the time for which a reading stands. A choice of this project.
    private const long OldestNs = 10_000_000_000;

    // Truth remembers 384 beats at least; at 230 bpm they last 100 s [ns].
    private const long LongestWindowNs = 100_000_000_000;

    private static readonly MarkKind[] s_kinds =
    [
        MarkKind.HeartRateBpm, MarkKind.ArrivalTimeMs, MarkKind.RespirationRateBpm, MarkKind.Spo2Percent,
        MarkKind.PerfusionIndexPercent, MarkKind.HeartRateFusedBpm, MarkKind.ArrivalSpotMs, MarkKind.SystolicMmhg, MarkKind.DiastolicMmhg,
    ];

    // Asked several times for every mark.
    private static readonly sbyte[] s_places = Places();

    /// <summary>The kinds of readings that are compared with truth, in the order of their tallies.</summary>
    public static IReadOnlyList<MarkKind> Kinds => s_kinds;

    /// <summary>
    /// Largest error that is still right, in the kind's unit: 5 bpm or 10 % of the true heart rate, whichever is larger (the rule of
    /// the heart-rate meter standards, from memory); choices of this project are 10 ms of arrival time, 4 points of saturation,
    /// 0.05 points or a quarter of the true perfusion index, whichever is larger, 3 breaths a minute, and 15 mmHg of pressure: the widest of
    /// the three bands by which the British Hypertension Society grades cuffs (O'Brien 1993, from memory).
    /// </summary>
    /// <param name="kind">One of <see cref="Kinds"/>.</param>
    /// <param name="truth">True value in the kind's unit.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no rule for the kind.</exception>
    public static double LargestGoodError(MarkKind kind, double truth) => kind switch
    {
        MarkKind.HeartRateBpm or MarkKind.HeartRateFusedBpm => Math.Max(5, 0.1 * truth),
        MarkKind.ArrivalTimeMs or MarkKind.ArrivalSpotMs => 10,
        MarkKind.Spo2Percent => 4,
        MarkKind.PerfusionIndexPercent => Math.Max(0.05, 0.25 * truth),
        MarkKind.RespirationRateBpm => 3,
        MarkKind.SystolicMmhg or MarkKind.DiastolicMmhg => 15,
        _ => throw new ArgumentOutOfRangeException(
            nameof(kind), kind, $"There is a rule for {string.Join(", ", s_kinds.Select(k => k.Text()))} only."),
    };

    /// <summary>
    /// Whether a reading can stand for anything: it has a value, a window that truth remembers, and is not older than any reading of use.
    /// One that cannot is no reading at all for the share of time with one.
    /// </summary>
    internal static bool CanStand(in TimedMark mark) =>
        double.IsFinite(mark.Value)
        && mark.EmittedTimeNs - mark.TimeNs <= OldestNs
        && (mark.WindowBeginNs is not long begin || mark.TimeNs - begin <= LongestWindowNs);

    /// <summary>Place of a kind in <see cref="Kinds"/>; −1 when it is not scored.</summary>
    internal static int IndexOf(MarkKind kind) => (uint)kind < (uint)s_places.Length ? s_places[(int)kind] : -1;

    /// <summary>Whether a reading is made of a beat of the ECG and a pulse of its own channel.</summary>
    internal static bool IsJoint(MarkKind kind) => kind is
        MarkKind.ArrivalTimeMs or MarkKind.ArrivalSpotMs or MarkKind.SystolicMmhg or MarkKind.DiastolicMmhg;

    private static sbyte[] Places()
    {
        var places = new sbyte[MarkKinds.All.Count];
        for (int kind = 0; kind < places.Length; kind++)
        {
            places[kind] = (sbyte)Array.IndexOf(s_kinds, (MarkKind)kind);
        }

        return places;
    }
}
