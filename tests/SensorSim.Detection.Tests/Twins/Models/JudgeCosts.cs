// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;

namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>How often the judge decides otherwise than its twin.</summary>
/// <param name="Candidates">Judged.</param>
/// <param name="Beats">Taken for beats by the twin.</param>
/// <param name="Differ">Beats of only one of the two, or looked back for by only one.</param>
/// <param name="Wide">Beats of both that only one calls wide.</param>
/// <param name="OtherThreshold">Candidates after which the thresholds were more than 30 ppm apart.</param>
internal readonly record struct JudgeCosts(int Candidates, int Beats, int Differ, int Wide, int OtherThreshold)
{
    public static JudgeCosts operator +(JudgeCosts a, JudgeCosts b) => new(
        a.Candidates + b.Candidates, a.Beats + b.Beats, a.Differ + b.Differ, a.Wide + b.Wide, a.OtherThreshold + b.OtherThreshold);

    /// <summary>Both judges over a script.</summary>
    public static JudgeCosts Of(int seed, int beats)
    {
        List<BeatCandidate> script = JudgeScript.Make(seed, beats);
        BeatWindows w = BeatWindows.ForRate(250);
        var levels = default(BeatLevels);
        var judge = default(BeatJudge);
        judge.Restart();
        levels.Learn(1_000_001, 100_001);
        var twinLevels = new BeatLevelsTwin();
        twinLevels.Learn(1_000_001, 100_001);
        var twin = new BeatJudgeTwin(w, twinLevels);
        var found = new Dictionary<long, (bool IsLookedBack, bool IsWide)>();
        void Drain()
        {
            while (judge.TryTake(out BeatCandidate beat))
            {
                found[beat.Position256] = (beat.Quality < 255, beat.IsWide);
            }
        }

        int thresholds = 0;
        int next = 0;
        long end = (script[^1].Position256 >> 8) + 1000;
        for (long now = 0; now < end; now++)
        {
            // A hump is told some 200 ms after its middle.
            while (next < script.Count && (script[next].Position256 >> 8) + 50 <= now)
            {
                judge.Add(w, ref levels, script[next]);
                twin.Add(JudgeScript.Twin(script[next]));
                next++;
                thresholds += Math.Abs(levels.Threshold - twinLevels.Threshold) > 30e-6 * twinLevels.Threshold ? 1 : 0;
                Drain();
            }

            judge.Pass(w, ref levels, now);
            twin.Pass((int)now);
            Drain();
        }

        int same = 0;
        int wide = 0;
        foreach (BeatCandidateTwin beat in twin.Beats)
        {
            bool isBoth = found.TryGetValue(PlaceOf(beat), out (bool IsLookedBack, bool IsWide) other) && other.IsLookedBack == beat.IsLookedBack;
            same += isBoth ? 1 : 0;
            wide += isBoth && other.IsWide != beat.IsWide ? 1 : 0;
        }

        return new JudgeCosts(script.Count, twin.Beats.Count, Math.Max(twin.Beats.Count, found.Count) - same, wide, thresholds);
    }

    private static long PlaceOf(BeatCandidateTwin beat) => (long)(beat.Position * 256);
}
