// SPDX-License-Identifier: MIT
using SensorSim.Files;
using SensorSim.Files.Edf;
using SensorSim.Files.Rows;
using SensorSim.Files.VectorSets;
using SensorSim.Scenarios.Reading;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Vectors.Making;
using SensorSim.Studies.Vectors.Sets;

namespace SensorSim.Studies.Tests.Vectors;

/// <summary>Making of sets: whole, the same every time, from anywhere.</summary>
public sealed class SetMakerTests
{
    [Test]
    public void The_same_plan_gives_the_same_bytes_also_from_the_set_itself_at_another_place()
    {
        using var bench = new SetBench();
        MadeSet made = bench.Make("first");
        bench.Make("second");
        Dictionary<string, byte[]> first = bench.Bytes("first");
        AssertSame(bench.Bytes("second"), first);
        Directory.Delete(bench["plans"], recursive: true);
        Directory.Delete(bench["scenarios"], recursive: true);
        Directory.Move(bench["second"], bench["moved"]);
        bench.Make("third", SetPlan.Read(bench["moved"]));
        AssertSame(bench.Bytes("third"), first);
        Assert.That(made.Manifest.Files.Select(f => f.Path), Is.EqualTo(first.Keys.Except([SetNames.Manifest, SetNames.Sidecar]).Order(StringComparer.Ordinal)));
        Assert.That(first.Keys, Does.Contain("sources/scenarios/rest.toml").And.Contain("sources/sensors/wrist.toml").And.Contain("rest/stimulus.bdf").And.Contain("lost/picture.png"));
        Assert.That(first.Keys, Does.Not.Contain("lost/stimulus.bdf"));
    }

    [Test]
    public void Samples_of_every_form_are_those_of_the_scenario()
    {
        using var bench = new SetBench();
        bench.Make("set");
        VectorSet set = VectorSet.Open(bench["set"]);
        foreach (SetCase one in set.Cases)
        {
            List<(int, long, int, ushort)> truth = Samples(one.Planned.Scenario.OpenStream());
            Assert.That(truth, Has.Count.GreaterThan(10_000));
            using (var raw = new RawRecordingReader(one.Folder))
            {
                Assert.That(Samples(raw), Is.EqualTo(truth), one.Name);
            }

            if (one.Name == "rest")
            {
                using var bdf = new EdfRecordingReader(Path.Combine(one.Folder, "stimulus.bdf"));
                Assert.That(Samples(bdf), Is.EqualTo(truth));
            }
        }
    }

    [Test]
    public void A_header_holds_each_nth_sample_shifted_and_the_answers_are_those_to_it()
    {
        using var bench = new SetBench();
        bench.Make("set");
        VectorSet set = VectorSet.Open(bench["set"]);
        ManifestHeader narrow = set.Manifest.Cases[0].Headers[0];
        ManifestHeader thin = set.Manifest.Cases[0].Headers[1];
        Assert.That((narrow.File, narrow.Bits, narrow.KeepEvery), Is.EqualTo(("rest/rest.h", 16, 1)));
        Assert.That((thin.File, thin.Bits, thin.KeepEvery), Is.EqualTo(("rest/rest-thin.h", 32, 2)));
        string text = File.ReadAllText(Path.Combine(bench["set"], narrow.File));
        ISampleStream stream = set.Cases[0].Planned.Scenario.OpenStream();
        ChannelFormat ecg = stream.Format.Channels[0];
        int shift = ecg.Bits - 16;
        Assert.That(shift, Is.GreaterThan(0), "the case must be one that needs a shift");

        // To the nearest, halves upwards, in decimals: nothing of the maker's own arithmetic.
        string[] expected = [.. Samples(stream).Where(s => s.Item1 == 0).Select(s => Math.Min(32767, Math.Floor((s.Item3 / (decimal)(1 << shift)) + 0.5m)).ToString(System.Globalization.CultureInfo.InvariantCulture))];
        Assert.That(Array(text, "vector_rest_ecg_codes"), Is.EqualTo(expected));

        string thinned = File.ReadAllText(Path.Combine(bench["set"], thin.File));
        string[] every = [.. Samples(set.Cases[0].Planned.Scenario.OpenStream()).Where(s => s.Item1 == 0 && s.Item2 % 2 == 0).Select(s => s.Item3.ToString(System.Globalization.CultureInfo.InvariantCulture))];
        Assert.That(Array(thinned, "vector_rest_thin_ecg_codes"), Is.EqualTo(every));
        foreach (ManifestHeader header in new[] { narrow, thin })
        {
            using var answers = new DetectionsCsvReader(Path.Combine(bench["set"], header.Expected));
            Assert.That(answers.ReadAll().Count(r => r.Kind == Signals.Marks.MarkKind.RPeak), Is.InRange(20, 30), "24 s at 60 to 70 bpm");
        }
    }

    [TestCase(0, 2, 0)]
    [TestCase(1, 2, 0)]
    [TestCase(2, 2, 1)]
    [TestCase(-2, 2, 0)]
    [TestCase(-3, 2, -1)]
    [TestCase(-6, 2, -1)]
    [TestCase(131071, 2, 32768)]
    [TestCase(-131072, 2, -32768)]
    [TestCase(-7, 0, -7)]
    public void A_shift_rounds_to_the_nearest_halves_upwards(int code, int shift, int expected) =>
        Assert.That(HeaderCapture.Shifted(code, shift), Is.EqualTo(expected));

    [TestCase("max_bytes = 20000", "max_bytes = 200", "header rest needs 12000 bytes, more than max_bytes = 200")]
    [TestCase("keep_every = 2", "keep_every = 3", "keeps every 3th sample of ecg, which has 250 Hz")]
    [TestCase("channels = [\"ecg\"]", "channels = [\"green\"]", "wants green, which its scenario does not have")]
    public void What_a_header_cannot_hold_is_told(string right, string wrong, string sentence)
    {
        using var bench = new SetBench(SetBench.Plan.Replace(right, wrong, StringComparison.Ordinal));
        Assert.That(() => bench.Make("set"), Throws.TypeOf<InputFileException>().With.Message.Contains("plan.toml: case rest: header").And.Message.Contains(sentence));
        Assert.That(Directory.Exists(bench["set"]), Is.False, "nothing is half-written");
    }

    [Test]
    public void A_path_from_the_root_or_a_name_that_other_systems_refuse_is_told()
    {
        using var bench = new SetBench();
        bench.Write("plans/plan.toml", SetBench.Plan.Replace("../scenarios/lost.toml", bench["scenarios/lost.toml"], StringComparison.Ordinal));
        Assert.That(() => SetPlan.ReadFile(bench.PlanPath), Throws.TypeOf<InputFileException>().With.Message.Contains("begins at the root"));
        File.Move(bench["scenarios/lost.toml"], bench["scenarios/lost one.toml"]);
        bench.Write("plans/plan.toml", SetBench.Plan.Replace("lost.toml", "lost one.toml", StringComparison.Ordinal));
        Assert.That(() => SetPlan.ReadFile(bench.PlanPath), Throws.TypeOf<InputFileException>().With.Message.Contains("letters, digits, points"));
    }

    [Test]
    public void A_set_takes_the_place_of_an_older_one_and_of_nothing_else()
    {
        using var bench = new SetBench();
        bench.Make("set");
        bench.Write("plans/plan.toml", SetBench.Plan.Replace("name = \"lost\"", "name = \"other\"", StringComparison.Ordinal));
        SetPlan plan = SetPlan.ReadFile(bench.PlanPath);
        SetPlace place = SetPlace.Look(bench["set"], plan);
        place.RemoveOld(bench.Make("set", plan).Manifest);
        Assert.That(Directory.Exists(bench["set/lost"]), Is.False);
        Assert.That(bench.Verify("set").Findings, Is.Empty);
        bench.Write("set/notes.txt", "mine");
        Assert.That(() => SetPlace.Look(bench["set"], plan), Throws.TypeOf<InputFileException>().With.Message.Contains("notes.txt").And.Message.Contains("belongs to no vector set"));
    }

    [Test]
    public void What_is_read_for_a_set_is_read_from_the_set_alone()
    {
        using var bench = new SetBench();
        bench.Make("set");

        // A plan and sums that look right, and a scenario that is there: only that it lies outside gives it away.
        byte[] plan = System.Text.Encoding.UTF8.GetBytes(SetBench.Plan.Replace("../scenarios/lost.toml", "../../../scenarios/lost.toml", StringComparison.Ordinal));
        Assert.That(File.Exists(bench["scenarios/lost.toml"]));
        bench.Forge("set", SetNames.Plan, plan);
        Assert.That(() => SetPlan.FromSet(bench["set"], "plans/plan.toml"), Throws.TypeOf<ScenarioException>().With.Message.Contains("lies outside of the folder"));
        Assert.That(bench.Verify("set").Findings.Select(f => f.Sentence), Has.Some.Contains("lies outside of the folder"));
    }

    private static string[] Array(string header, string name)
    {
        int begin = header.IndexOf('{', header.IndexOf(name + "[", StringComparison.Ordinal)) + 1;
        return header[begin..header.IndexOf('}', begin)].Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
    }

    private static List<(int Channel, long Index, int Code, ushort Status)> Samples(ISampleStream stream)
    {
        var samples = new List<(int, long, int, ushort)>();
        var block = new SampleBlock(stream.Format, stream.Format.Clock.TicksPerSecond);
        while (stream.PositionTick < stream.EndTick)
        {
            stream.Read(block, Math.Min(stream.EndTick, stream.PositionTick + stream.Format.Clock.TicksPerSecond));
            for (int c = 0; c < block.Channels.Length; c++)
            {
                foreach (SampleRun run in block.Channels[c].Runs)
                {
                    for (int k = 0; k < run.Count; k++)
                    {
                        samples.Add((c, run.FirstIndex + k, block.Channels[c].Codes[run.Offset + k], block.Channels[c].Status[run.Offset + k]));
                    }
                }
            }
        }

        return samples;
    }

    private static void AssertSame(Dictionary<string, byte[]> bytes, Dictionary<string, byte[]> expected)
    {
        Assert.That(bytes.Keys.Order(StringComparer.Ordinal), Is.EqualTo(expected.Keys.Order(StringComparer.Ordinal)));
        Assert.That(expected.Keys.Where(k => !bytes[k].AsSpan().SequenceEqual(expected[k])), Is.Empty);
    }
}
