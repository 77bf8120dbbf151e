// SPDX-License-Identifier: MIT
namespace SensorSim.Studies.Challenges;

/// <summary>First stage: each knob alone. A coarse grid finds where it breaks something, bisection where that begins.</summary>
/// <remarks>The grid is there because more need not be worse: what breaks in the middle may hold at the harsh end.</remarks>
internal static class SingleSearch
{
    private static readonly double[] s_grid = [0.03, 0.1, 0.25, 0.5, 0.75, 1];
    private const int Halvings = 5;

    /// <summary>Searches.</summary>
    /// <param name="bench">Where inputs are tried.</param>
    /// <param name="ranges">The knobs.</param>
    /// <param name="durationS">Length of the scenario [s].</param>
    /// <param name="mayGoOn">Asked before each batch.</param>
    /// <returns>For each knob the mildest input that broke something; null where none did.</returns>
    public static Trial?[] Search(TrialBench bench, IReadOnlyList<KnobRange> ranges, double durationS, Func<bool> mayGoOn)
    {
        var broken = new Trial?[ranges.Count];
        var held = new double[ranges.Count];
        foreach (double level in s_grid)
        {
            int[] open = [.. Enumerable.Range(0, ranges.Count).Where(k => broken[k] is null)];
            if (!mayGoOn())
            {
                break;
            }

            TryAll(level, open, level);
        }

        // First those that may turn out the mildest, then the rest: a small budget ends before all are done.
        var halvings = new int[ranges.Count];
        while (mayGoOn())
        {
            double least = broken.Min(t => t?.Input.Harshness) ?? 0;
            int[] open = [.. Enumerable.Range(0, ranges.Count).Where(k => broken[k] is not null && halvings[k] < Halvings)];
            int[] first = [.. open.Where(k => ranges[k].Knob.HarshnessAt(held[k]) < least)];
            int[] now = first.Length > 0 ? first : open;
            if (now.Length == 0)
            {
                break;
            }

            TryAll(null, now, 0);
            foreach (int knob in now)
            {
                halvings[knob]++;
            }
        }

        return broken;

        void TryAll(double? atLevel, int[] knobs, double heldLevel)
        {
            (int Knob, double Level, ChallengeInput Input)[] batch =
            [
                .. knobs.Select(k => (Knob: k, Level: atLevel ?? ((held[k] + LevelOf(broken[k]!)) / 2)))
                    .Select(t => (t.Knob, t.Level, Input: One(t.Knob, t.Level)))
                    .Where(t => t.Input.Disturbances.Count > 0 && t.Input.Harshness < (broken[t.Knob]?.Input.Harshness ?? double.PositiveInfinity)),
            ];
            IReadOnlyList<Trial> trials = bench.Try([.. batch.Select(b => b.Input)]);
            for (int i = 0; i < batch.Length; i++)
            {
                if (trials[i].IsBroken)
                {
                    broken[batch[i].Knob] = trials[i];
                }
                else
                {
                    held[batch[i].Knob] = batch[i].Level;
                }
            }
        }

        double LevelOf(Trial trial) => ranges[trial.Input.Disturbances[0].Knob].LevelOf(trial.Input.Disturbances[0].Value);

        ChallengeInput One(int knob, double level) => new(
            ranges, ranges[knob].ValueAt(level) is double value ? [new Disturbance(knob, value)] : [], durationS);
    }
}
