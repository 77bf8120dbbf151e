// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Tests.Streams;
using SensorSim.Signals.Marks;

namespace SensorSim.Scenarios.Tests;

/// <summary>
/// The scenarios of rhythms: each reads, runs its 30 s, and its truth holds what its name promises. The figures are those of its own
/// comment and knobs; what the words mean is textbook knowledge (from memory).
/// </summary>
[TestFixture]
public sealed class ShippedRhythmTests
{
    private const double Refractory = 0.2;

    private static readonly Dictionary<string, Action<Rhythm>> s_promises = new(StringComparer.Ordinal)
    {
        ["asystole"] = r =>
        {
            r.Holds(BeatClass.Normal);
            Assert.That(r.Beats.Where(b => b.Seconds is > 10.5 and < 16.99), Is.Empty);
            Assert.That(r.Beats.Count(b => b.Seconds > 17), Is.GreaterThan(10), "the heart beats again");
        },
        ["atrial-fibrillation"] = r =>
        {
            r.Holds(BeatClass.AtrialArrhythmia);
            Assert.That(r.Waves(MarkKind.PPeak), Is.Empty);
            Assert.That(Sd(r.Intervals) / r.Intervals.Average(), Is.InRange(0.15, 0.35), "24 % of the mean, 41 intervals");
        },
        ["atrial-flutter-2-to-1"] = r => Flutter(r, 0.4),
        ["atrial-flutter-4-to-1"] = r => Flutter(r, 4 * 60 / 280.0),
        ["atrial-flutter-variable"] = r =>
        {
            r.Holds(BeatClass.AtrialArrhythmia);
            Assert.That(r.Intervals.Select(i => Math.Round(i / 0.2)).Distinct().Order(), Is.EqualTo(new[] { 2.0, 3, 4 }));
        },
        ["atrial-premature"] = r =>
        {
            r.Holds(BeatClass.Normal, BeatClass.AtrialPremature);
            foreach (int i in r.Inner(BeatClass.AtrialPremature))
            {
                // Early, and the pause after it short of compensatory.
                Assert.That(r.Intervals[i - 1], Is.LessThan(0.8 * 60 / 68));
                Assert.That(r.Intervals[i - 1] + r.Intervals[i], Is.LessThan(1.93 * 60 / 68));
            }
        },
        ["block-second-degree-type-1"] = r =>
        {
            r.Holds(BeatClass.Normal);
            Assert.That(r.Waves(MarkKind.PPeak).Count(p => p.Label == BeatClass.Blocked), Is.InRange(7, 10), "every fourth of 37");
            Assert.That(r.PrIntervals.Max() - r.PrIntervals.Min(), Is.GreaterThan(0.1), "80 and 40 ms longer");
        },
        ["block-second-degree-type-2"] = r =>
        {
            r.Holds(BeatClass.Normal);
            Assert.That(r.Waves(MarkKind.PPeak).Count(p => p.Label == BeatClass.Blocked), Is.InRange(11, 14), "every third of 37");
            Assert.That(r.PrIntervals.Max() - r.PrIntervals.Min(), Is.LessThan(0.02));
        },
        ["block-third-degree"] = r =>
        {
            r.Holds(BeatClass.VentricularEscape);
            Assert.That(r.Intervals.Average(), Is.EqualTo(60 / 36.0).Within(0.05));
            Assert.That(r.Waves(MarkKind.PPeak).Count, Is.EqualTo(39).Within(2), "78 a minute");
        },
        ["electrodes-swapped"] = r =>
        {
            r.Holds(BeatClass.Normal);
            Assert.That(r.Beats.Select(b => b.Value), Is.All.LessThan(0));
        },
        ["low-voltage"] = r =>
        {
            r.Holds(BeatClass.Normal);
            Assert.That(r.Beats.Select(b => Math.Abs(b.Value)), Is.All.LessThan(0.5));
        },
        ["paced-dual"] = r =>
        {
            Paced(r, 70, spikes: 2);
            Assert.That(r.Waves(MarkKind.PPeak).Select(p => p.Label), Is.Not.Empty.And.All.EqualTo(BeatClass.Paced));
        },
        ["paced-ventricular"] = r =>
        {
            Paced(r, 60, spikes: 1);
            Assert.That(r.Waves(MarkKind.PPeak), Is.Empty);
        },
        ["r-on-t"] = r =>
        {
            Premature(r, 3);
            Assert.That(r.Inner(BeatClass.VentricularPremature).Select(i => r.Intervals[i - 1]), Is.All.LessThan(0.45), "inside QT of about 0.4 s and its QRS");
        },
        ["scripted"] = r =>
        {
            r.Holds(BeatClass.Normal, BeatClass.VentricularPremature, BeatClass.AtrialPremature);
            double[] script = [0.8, 0.8, 0.48, 1.12, 0.8, 0.56, 0.88];
            int start = Enumerable.Range(0, script.Length).First(s => Enumerable.Range(0, 7).All(i => Math.Abs(r.Intervals[i] - script[(s + i) % 7]) < 0.03));
            Assert.That(r.Intervals.Select((x, i) => x - script[(start + i) % 7]), Is.All.EqualTo(0).Within(0.03), "R peaks of beats of another shape lie a little beside");
        },
        ["sinus-bradycardia"] = r => Sinus(r, 44),
        ["sinus-normal"] = r => Sinus(r, 68),
        ["sinus-pause"] = r =>
        {
            r.Holds(BeatClass.Normal);
            Assert.That(r.Intervals.Count(i => Math.Abs(i - 3.4) < 0.2), Is.InRange(1, 6), "one in ten seconds or so");
        },
        ["sinus-tachycardia"] = r => Sinus(r, 125),
        ["st-elevation"] = r => Sinus(r, 72),
        ["t-alternans"] = r =>
        {
            Sinus(r, 95);
            double[] t = [.. r.Waves(MarkKind.TPeak).Select(w => w.Value)];
            Assert.That(t.Zip(t.Skip(1), (a, b) => Math.Abs(b - a)), Is.All.EqualTo(0.15).Within(0.03));
        },
        ["tall-t"] = r =>
        {
            Sinus(r, 76);
            Assert.That(r.Waves(MarkKind.TPeak).Average(t => t.Value), Is.GreaterThan(0.8 * r.Beats.Average(b => b.Value)));
        },
        ["ventricular-bigeminy"] = r => Premature(r, 1),
        ["ventricular-couplets"] = r => Groups(r, BeatClass.VentricularPremature, 2, 140),
        ["ventricular-fibrillation"] = r =>
        {
            r.Holds(BeatClass.Normal, BeatClass.VentricularPremature);
            Assert.That(r.Beats.Max(b => b.Seconds), Is.InRange(6, 9), "no beat after the onset at 8 s");
            Assert.That(r.Waves(MarkKind.PulseFootTangent).Max(f => f.Seconds), Is.LessThan(9.5));
        },
        ["ventricular-premature-interpolated"] = r =>
        {
            r.Holds(BeatClass.Normal, BeatClass.VentricularPremature);
            Assert.That(r.Inner(BeatClass.VentricularPremature).Select(i => r.Intervals[i - 1] + r.Intervals[i]), Is.All.EqualTo(60 / 52.0).Within(0.1));
        },
        ["ventricular-premature"] = r =>
        {
            r.Holds(BeatClass.Normal, BeatClass.VentricularPremature);
            Assert.That(r.Inner(BeatClass.VentricularPremature).Select(i => r.Intervals[i - 1] + r.Intervals[i]), Is.All.EqualTo(2 * 60 / 70.0).Within(0.2));
        },
        ["ventricular-run"] = r => Groups(r, BeatClass.VentricularRun, 6, 160),
        ["ventricular-tachycardia"] = r =>
        {
            r.Holds(BeatClass.Normal, BeatClass.VentricularRun);
            Assert.That(r.Beats.Where(b => b.Label == BeatClass.VentricularRun).Select(b => b.Seconds), Is.All.InRange(7.9, 22.1));
            Assert.That(r.Beats.Count(b => b.Label == BeatClass.VentricularRun), Is.EqualTo(14 * 3).Within(3), "14 s at 180 bpm");
        },
        ["ventricular-trigeminy"] = r => Premature(r, 2),
    };

    private static string Folder => Path.Combine(Repository.Root, "waveforms", "scenarios", "rhythms");

    private static IEnumerable<string> Names => s_promises.Keys;

    [Test]
    public void Promises_AreThereForEveryFile() => Assert.That(
        Directory.GetFiles(Folder, "*.toml").Select(f => Path.GetFileNameWithoutExtension(f)), Is.EquivalentTo(Names));

    [TestCaseSource(nameof(Names))]
    public void Truth_HoldsWhatTheNamePromises(string name)
    {
        Scenario scenario = ScenarioReader.ReadFile(Path.Combine(Folder, name + ".toml"));
        var truth = new List<TruthEvent>();
        StreamCheck.ReadAll(scenario.CreateStream(), truth.Add);
        var rhythm = new Rhythm(truth);

        Assert.That(scenario.Values.IsSet(ScenarioKeys.Title));
        Assert.That(scenario.Text, Does.StartWith("# "));
        Assert.That(scenario.DurationS, Is.EqualTo(30));
        Assert.That(rhythm.Beats.Max(b => b.Seconds), Is.GreaterThan(name == "ventricular-fibrillation" ? 6 : 25));
        s_promises[name](rhythm);
    }

    private static void Sinus(Rhythm r, double bpm)
    {
        r.Holds(BeatClass.Normal);
        Assert.That(60 / r.Intervals.Average(), Is.EqualTo(bpm).Within(0.05 * bpm));
        Assert.That(r.Waves(MarkKind.PPeak).Count, Is.EqualTo(r.Beats.Count).Within(1));
    }

    private static void Flutter(Rhythm r, double interval)
    {
        r.Holds(BeatClass.AtrialArrhythmia);
        Assert.That(r.Intervals, Is.All.EqualTo(interval).Within(0.01));
        Assert.That(r.Waves(MarkKind.PPeak), Is.Empty);
    }

    private static void Paced(Rhythm r, double bpm, int spikes)
    {
        r.Holds(BeatClass.Paced);
        Assert.That(r.Intervals, Is.All.EqualTo(60 / bpm).Within(0.001));
        Assert.That(r.Waves(MarkKind.PacingSpike).Count, Is.EqualTo(spikes * r.Beats.Count).Within(2));
    }

    // After so many normal beats a ventricular one.
    private static void Premature(Rhythm r, int normals)
    {
        r.Holds(BeatClass.Normal, BeatClass.VentricularPremature);
        int[] places = [.. r.Inner(BeatClass.VentricularPremature)];
        Assert.That(places.Zip(places.Skip(1), (a, b) => b - a), Is.Not.Empty.And.All.EqualTo(normals + 1));
    }

    private static void Groups(Rhythm r, BeatClass label, int length, double bpm)
    {
        r.Holds(BeatClass.Normal, label);
        string classes = string.Concat(r.Beats.Select(b => b.Label == label ? 'V' : 'n'));
        string[] groups = [.. classes.Trim('V').Split('n', StringSplitOptions.RemoveEmptyEntries)];
        Assert.That(groups, Is.Not.Empty.And.All.EqualTo(new string('V', length)));
        Assert.That(
            Enumerable.Range(0, r.Intervals.Length).Where(i => r.Beats[i].Label == label && r.Beats[i + 1].Label == label).Select(i => r.Intervals[i]),
            Is.Not.Empty.And.All.EqualTo(60 / bpm).Within(0.03));
    }

    private static double Sd(double[] values) => Math.Sqrt(values.Average(v => (v - values.Average()) * (v - values.Average())));

    /// <summary>The truth of a stream in order of time.</summary>
    private sealed class Rhythm(IEnumerable<TruthEvent> truth)
    {
        private readonly List<TruthEvent> _truth = [.. truth.OrderBy(t => t.TimeNs)];

        public List<Event> Beats => Waves(MarkKind.RPeak);

        public double[] Intervals => [.. Beats.Zip(Beats.Skip(1), (a, b) => b.Seconds - a.Seconds)];

        // From the P wave's peak to the R peak of the same beat.
        public double[] PrIntervals
        {
            get
            {
                var p = Waves(MarkKind.PPeak).Where(w => w.Label != BeatClass.Blocked).ToDictionary(w => w.BeatId, w => w.Seconds);
                return [.. Beats.Where(b => p.ContainsKey(b.BeatId)).Select(b => b.Seconds - p[b.BeatId])];
            }
        }

        public List<Event> Waves(MarkKind kind) =>
            [.. _truth.Where(t => t.Kind == kind).Select(t => new Event(t.TimeNs * 1e-9, t.Value, t.Label, t.BeatId))];

        /// <summary>The classes of the beats are these, each at least twice; no two beats closer than a heart allows.</summary>
        public void Holds(params BeatClass[] classes)
        {
            Assert.That(Beats.Select(b => b.Label).Distinct(), Is.EquivalentTo(classes));
            Assert.That(classes.Select(c => Beats.Count(b => b.Label == c)), Is.All.GreaterThan(1));
            Assert.That(Intervals, Is.All.GreaterThan(Refractory));
        }

        /// <summary>Places of the beats of a class that have a beat before and after.</summary>
        public IEnumerable<int> Inner(BeatClass label) => Enumerable.Range(1, Beats.Count - 2).Where(i => Beats[i].Label == label);
    }

    private sealed record Event(double Seconds, double Value, BeatClass Label, long BeatId);
}
