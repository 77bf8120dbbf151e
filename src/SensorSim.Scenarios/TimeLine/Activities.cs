// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.TimeLine;

/// <summary>The activities: one table, relative to the same person sitting at rest.</summary>
/// <remarks>
/// <para>
/// Heart rate: shares of the reserve are the exercise physiologist's measure (Karvonen 1957); light to moderate work is 20 to 59 % of
/// it, vigorous 60 to 89 % (ACSM's guidelines, from memory). Largest rate 208 − 0.7 × age (Tanaka et al., J Am Coll Cardiol 37:153, 2001,
/// from memory). Standing adds about 10 bpm, lying takes a few off, sleep 10 to 20 % (from memory).
/// </para>
/// <para>
/// Time constants: moderate exercise begins with 20 to 60 s, its vagal part with 5 to 10 s (from memory); after 75 W a constant of 55 s
/// separated fit from unfit (Wang et al., IEEE EMBS 2006). Here 30 s up, 55 s down after exercise, 10 s from one posture to another;
/// 300 s into sleep is a choice of this project.
/// </para>
/// <para>
/// Pressure: dynamic exercise raises the systolic pressure by about 10 mmHg per MET to 180 to 210 mmHg and leaves the diastolic one flat
/// or lowers it (from memory; signs: Heimark et al., Blood Press Monit 2021). Walking is 2 to 5 MET, running 7 to 12 (from memory): from
/// 120 over 80 mmHg 10 to 40 and 60 to 90 mmHg more. In sleep systolic and diastolic pressure fall by 11 and 8 mmHg (Morris et al., Am J Hypertens 26:822, 2013).
/// Standing: diastolic up 5, systolic down a little (from memory).
/// </para>
/// <para>
/// Variability: vagal, so the respiratory part halves on standing, all but goes in hard exercise and is largest lying and asleep (Task
/// Force, Circulation 93:1043, 1996, in words; the factors are choices of this project). Breathing: up to about 50 per minute in hard
/// exercise (from memory). Cadence: walking 1.98 ± 0.15 Hz (Wu et al., arXiv 2203.10563, 2022), range 1.4 to 2.5, running 2.5 to 3.2 Hz
/// (from memory).
/// </para>
/// </remarks>
public static class Activities
{
    /// <summary>Time constant after exercise [s].</summary>
    public const double RecoverySeconds = 55;

    /// <summary>Breathing rate of the hardest exercise [breaths/min].</summary>
    public const double LargestBreathingPerMin = 50;

    /// <summary>Pulse pressure of the hardest exercise, 210 over 80 [mmHg].</summary>
    public const double LargestPulsePressureMmhg = 130;

    /// <summary>Sitting: the scenario's own values.</summary>
    public static Activity Sitting { get; } = new() { Name = "sitting", Movement = "rest", Posture = "upright", SettleSeconds = 10 };

    /// <summary>Every activity.</summary>
    public static IReadOnlyList<Activity> All { get; } =
    [
        new()
        {
            Name = "lying", Movement = "rest", Posture = "supine", SettleSeconds = 10,
            HeartFactor = 0.95, BreathingFactor = 0.95,
            DiastolicMmhg = new(-3, -3), PulsePressureMmhg = new(2, 2),
            RespiratoryVariability = new(1.2, 1.2), SlowVariability = new(0.9, 0.9),
        },
        Sitting,
        new()
        {
            Name = "standing", Movement = "rest", Posture = "upright", SettleSeconds = 10,
            HeartFactor = 1.15,
            DiastolicMmhg = new(5, 5), PulsePressureMmhg = new(-7, -7),
            RespiratoryVariability = new(0.5, 0.5), SlowVariability = new(1.1, 1.1),
        },
        new()
        {
            Name = "walking", Movement = "walking", Posture = "upright", IsExercise = true, SettleSeconds = 30,
            HeartReserve = new(0.2, 0.5), BreathingReserve = new(0.1, 0.4),
            PulsePressureReserve = new(0.11, 0.44),
            RespiratoryVariability = new(0.5, 0.3), SlowVariability = new(0.7, 0.4), CadenceHz = new(1.6, 2.3),
        },
        new()
        {
            Name = "running", Movement = "running", Posture = "upright", IsExercise = true, SettleSeconds = 30,
            HeartReserve = new(0.6, 0.95), BreathingReserve = new(0.4, 0.9),
            DiastolicMmhg = new(-2, -8), PulsePressureReserve = new(0.69, 1),
            RespiratoryVariability = new(0.2, 0.05), SlowVariability = new(0.2, 0.05), CadenceHz = new(2.5, 3.1),
        },
        new()
        {
            Name = "recovering", Movement = "rest", Posture = "upright", SettleSeconds = RecoverySeconds,
            HeartReserve = new(0.1, 0.1), BreathingReserve = new(0.1, 0.1),
            DiastolicMmhg = new(-2, -2), PulsePressureMmhg = new(4, 4),
            RespiratoryVariability = new(0.5, 0.5), SlowVariability = new(0.7, 0.7),
        },
        new()
        {
            Name = "sleeping", Movement = "rest", Posture = "supine", SettleSeconds = 300,
            HeartFactor = 0.88, BreathingFactor = 0.9,
            DiastolicMmhg = new(-8, -8), PulsePressureMmhg = new(-3, -3),
            RespiratoryVariability = new(1.3, 1.3), SlowVariability = new(0.7, 0.7),
        },
    ];

    /// <summary>The keys that an activity changes.</summary>
    public static IEnumerable<KeyDefinition> Keys => ActivityChanges.Keys;

    /// <summary>An activity by its name, or null.</summary>
    /// <param name="name">Name such as <c>walking</c>.</param>
    public static Activity? Find(string name) => All.FirstOrDefault(a => a.Name == name);

    /// <summary>Largest heart rate of an age [bpm].</summary>
    /// <param name="ageYears">Age [years].</param>
    public static double LargestHeartRateBpm(double ageYears) => 208 - (0.7 * ageYears);
}
