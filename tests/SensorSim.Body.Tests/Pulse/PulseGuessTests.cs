// SPDX-License-Identifier: MIT
using SensorSim.Body.Pulse;
using SensorSim.Body.Rhythm;
using SensorSim.Body.Tests.Support;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Body.Tests.Pulse;

/// <summary>
/// The search of a beat's landmarks begins where those of the beat before lay. What is found must not depend on it: it is held against a search that knows nothing
/// but the shape of the pulse.
/// </summary>
public sealed class PulseGuessTests
{
    private const double Reached = 1e-8;

    // A diastolic peak that hardly rises lies where digits end.
    private const double ReachedWhereFlat = 4e-8;

    private const int PreRollBeats = 24;

    [Test]
    public void Landmarks_OfShapesThatJump_AreThoseOfASearchAnew([Range(1, 12)] int seed)
    {
        var random = new Random(seed);
        KeyValues values = new KeyValues().Set(HeartKeys.RateBpm, 45 + (random.NextDouble() * 75))
            .SetChanges(PulseKeys.StiffnessIndexMPerS, Jumps(random, 5, 14), [])
            .SetChanges(PulseKeys.ReflectionIndexPercent, seed % 2 == 0 ? Jumps(random, 40, 80) : [], []);
        Check(values, 300);
    }

    [TestCaseSource(typeof(RhythmCases), nameof(RhythmCases.Names))]
    public void Landmarks_OfEveryRhythm_AreThoseOfASearchAnew(string name) => Check(RhythmCases.Values(name), 200);

    [Test]
    public void Landmarks_OfRates_AreThoseOfASearchAnew([Values(20, 25, 30, 35, 40, 50, 70, 100, 140, 180, 220)] int rateBpm, [Values(5, 7, 9, 12)] int stiffness) =>
        Check(new KeyValues().Set(HeartKeys.RateBpm, rateBpm).Set(PulseKeys.StiffnessIndexMPerS, stiffness).Set(HeartKeys.SlowVariabilityMs, 40), 120);

    private static void Check(KeyValues values, double seconds)
    {
        Course stiffness = values.Course(PulseKeys.StiffnessIndexMPerS);
        Course reflection = values.Course(PulseKeys.ReflectionIndexPercent);
        List<BeatView> beats = [.. new Heartbeats(values, 5, seconds).Beats];
        var sum = new PulseSum();
        int checkedBeats = 0;
        for (int i = PreRollBeats; i < beats.Count; i++)
        {
            BeatView beat = beats[i];
            PulseLandmarks found = beat.Landmarks;
            if (!beat.IsBeat || !found.HasFoot)
            {
                continue;
            }

            KeyValues now = new KeyValues().Set(PulseKeys.StiffnessIndexMPerS, stiffness.Value(beat.R.Seconds)).Set(PulseKeys.ReflectionIndexPercent, reflection.Value(beat.R.Seconds));
            double scale = PulseContour.Scale(60 / beat.RecentRrSeconds);
            sum.Clear();
            for (int k = i - 1; k >= 0 && beats[k].Seconds > found.FootTangentSeconds - 6; k--)
            {
                if (beats[k].IsBeat)
                {
                    sum.AddEarlier(beats[k].Pulse, 1, found.FootTangentSeconds - (PulseSolver.ReachSeconds * scale));
                }
            }

            PulseLandmarks anew = PulseSolver.Solve(sum, beat.Pulse, new PulseContour(now), scale);
            string where = FormattableString.Invariant($"beat {i} at {beat.R.Seconds:0.000} s");
            Assert.That(anew.HasFoot, Is.True, where);
            Near(found.FootMinimumSeconds, anew.FootMinimumSeconds, Reached, $"minimum of {where}");
            Near(found.FootTangentSeconds, anew.FootTangentSeconds, Reached, $"tangent of {where}");
            Near(found.FootSecondDerivativeSeconds, anew.FootSecondDerivativeSeconds, Reached, $"second derivative of {where}");
            Near(found.SteepestSeconds, anew.SteepestSeconds, Reached, $"steepest point of {where}");
            Near(found.SystolicPeakSeconds, anew.SystolicPeakSeconds, Reached, $"peak of {where}");
            Near(found.DicroticNotchSeconds, anew.DicroticNotchSeconds, ReachedWhereFlat, $"notch of {where}");
            Near(found.DiastolicPeakSeconds, anew.DiastolicPeakSeconds, ReachedWhereFlat, $"diastolic peak of {where}");
            checkedBeats++;
        }

        TestContext.Out.WriteLine($"{checkedBeats} beats");
    }

    // NaN and NaN are near.
    private static void Near(double found, double anew, double within, string what) =>
        Assert.That((double.IsNaN(found) && double.IsNaN(anew)) || Math.Abs(found - anew) <= within, Is.True, FormattableString.Invariant($"{what}: {found:R} and {anew:R}"));

    private static CourseChange[] Jumps(Random random, double least, double most)
    {
        var changes = new List<CourseChange>();
        for (double at = 2; at < 300; at += 1.5 + (random.NextDouble() * 2.5))
        {
            changes.Add(new CourseChange(at, ChangeKind.Step, least + (random.NextDouble() * (most - least)), 0));
        }

        return [.. changes];
    }
}
