// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Choices;
using SensorSim.Scenarios.Reading;
using SensorSim.Sensing;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.Tests.Choices;

[TestFixture]
public sealed class LibraryConstantsTests
{
    // Fast, noisy at times, with a tall T wave, faint pulses and a lift-off: every constant has something to decide here.
    private const string Eventful = """
        [scenario]
        duration_s = 150
        seed = 11

        [heart]
        rate_bpm = 150

        [ecg]
        t_mv = 0.9

        [pulse]
        perfusion_index_percent = 1

        [ecg_noise]
        muscle_snr_db = -6

        [optics]
        white_noise_snr_db = 30

        [[change]]
        key = "optics.contact_percent"
        at_s = 100
        step_to = 0

        [[change]]
        key = "optics.contact_percent"
        at_s = 104
        step_to = 100

        [[change]]
        key = "heart.rate_bpm"
        at_s = 60
        ramp_to = 60
        over_s = 20

        [[change]]
        key = "ecg_noise.muscle_snr_db"
        at_s = 40
        ramp_to = 12
        over_s = 5
        """;

    private static readonly Dictionary<string, double> s_usual = [];

    private static IEnumerable<NumberKey> All() => LibraryConstants.All;

    [TestCaseSource(nameof(All))]
    public void Create_UsualValueGiven_ChangesNoMark(NumberKey key) =>
        Assert.That(Marks(new Dictionary<string, double> { [key.Name] = key.Default }), Is.EqualTo(Marks(s_usual)));

    [TestCaseSource(nameof(All))]
    public void Create_AnEndOfTheRange_ChangesMarks(NumberKey key)
    {
        // Strong noise tries the thresholds, some noise the gates.
        bool isChanged = new[] { "-6", "0", "4" }.Any(db => new[] { key.Minimum, key.Maximum }.Any(
            end => !Marks(new Dictionary<string, double> { [key.Name] = end }, db).SequenceEqual(Marks(s_usual, db))));
        Assert.That(isChanged, Is.True);
    }

    // Beats every 400 ms: with a refractory time that reaches beyond the next beat the detector finds fewer, with one that does not as many.
    [TestCase("detector.beat_refractory_ms", 400, 0.95)]
    [TestCase("detector.beat_refractory_ms", 250, 1)]
    public void Create_RefractoryTime_DecidesHowManyBeatsAreFound(string name, double value, double most)
    {
        int usual = Marks(s_usual).Count(m => m.Kind == MarkKind.RPeak);
        int found = Marks(new Dictionary<string, double> { [name] = value }).Count(m => m.Kind == MarkKind.RPeak);
        Assert.That(found, most < 1 ? Is.LessThan(most * usual) : Is.EqualTo(usual).Within(2));
    }

    [TestCase("detector.beat_refractory", 200, "detector.beat_refractory is no constant")]
    [TestCase("detector.beat_refractory_ms", 99, "must be 100 to 400, whole")]
    [TestCase("detector.beat_refractory_ms", 200.5, "must be 100 to 400, whole")]
    [TestCase("detector.beat_refractory_ms", double.NaN, "must be 100 to 400, whole")]
    public void Create_WhatTheLibraryCannotTake_IsRefusedInOneSentence(string name, double value, string sentence)
    {
        using var factory = new LibraryFactory();
        Assert.That(
            () => factory.Create(new Dictionary<string, double> { [name] = value }), Throws.TypeOf<NotSupportedException>().With.Message.Contains(sentence));
    }

    private static List<Mark> Marks(Dictionary<string, double> constants, string db = "-6")
    {
        using var factory = new LibraryFactory();
        using IDetector detector = factory.Create(constants);
        SensorStream stream = ScenarioReader.ReadText(Eventful.Replace("-6", db, StringComparison.Ordinal), "eventful.toml").CreateStream();
        var block = new SampleBlock(stream.Format, stream.Format.Clock.TicksPerSecond);
        var output = new DetectorOutput();
        var marks = new List<Mark>();
        detector.Start(stream.Format);
        while (stream.PositionTick < stream.EndTick)
        {
            stream.Read(block, Math.Min(stream.EndTick, stream.PositionTick + stream.Format.Clock.TicksPerSecond));
            stream.Truth.Clear();
            stream.Acquisition.Clear();
            detector.Process(block, output);
            Take();
        }

        detector.Flush(output);
        Take();
        return marks;

        void Take()
        {
            while (output.Marks.TryTake(out Mark mark))
            {
                marks.Add(mark);
            }
        }
    }
}
