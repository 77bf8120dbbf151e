// SPDX-License-Identifier: MIT
using SensorSim.Body.Movement;
using SensorSim.Sensing.Devices;
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Bedrock;

/// <summary>
/// Every knob of the sensor, one at a time: its own channels change and no other by a bit, alone and with everything else on; truth never
/// does; and what adds, adds the same at the converter whatever else is on. Promises of this project.
/// </summary>
public sealed class EveryKnobTests
{
    private const double Seconds = 60;

    // A seed with which even what is rare happens in this minute.
    private const ulong Seed = 11;

    private static readonly Run s_allOn = new(AllOnWithTapes());

    private static IEnumerable<TestCaseData> Knobs() => SensorKnobs.All.Select(k => new TestCaseData(k).SetArgDisplayNames(k.Name));

    private static IEnumerable<TestCaseData> AddingKnobs() =>
        SensorKnobs.All.Where(k => k.Adds).Select(k => new TestCaseData(k).SetArgDisplayNames(k.Name));

    [Test]
    public void Table_Here_HasEveryKeyOfTheSensorOnce() =>
        Assert.That(SensorKnobs.All.Select(k => k.Name), Is.EquivalentTo(SensingKeys.All.Select(k => k.Name)));

    [TestCaseSource(nameof(Knobs))]
    public void Change_Alone_TouchesOnlyItsOwnChannels(object of)
    {
        var knob = (SensorKnob)of;
        KeyValues ready = knob.Ready(Plain());
        AssertTouches(knob, new Run(ready), new Run(knob.Changed(ready)), isAllOn: false);
    }

    [TestCaseSource(nameof(Knobs))]
    public void Change_WithEverythingOn_TouchesOnlyItsOwnChannels(object of)
    {
        var knob = (SensorKnob)of;
        KeyValues ready = knob.Ready(AllOnWithTapes());
        AssertTouches(knob, knob.With.Length == 0 ? s_allOn : new Run(ready), new Run(knob.Changed(ready)), isAllOn: true);
    }

    // Everything that adds, on or off; what multiplies, cuts off or follows the level keeps still, see the table for each.
    [TestCaseSource(nameof(AddingKnobs))]
    public void Change_OfWhatAdds_AddsTheSameWhateverElseIsOn(object of)
    {
        var knob = (SensorKnob)of;
        KeyValues on = Linear();
        KeyValues off = on.Copy();
        foreach (NumberKey other in SensorKnobs.All.Where(k => k.Adds).Select(k => k.Key).OfType<NumberKey>().Where(k => k.HasDefault))
        {
            off.Set(other, 0);
        }

        KeyValues readyOn = knob.Ready(on);
        KeyValues readyOff = knob.Ready(off);
        if (knob.Key is NumberKey { HasDefault: true } key)
        {
            readyOn.Set(key, 0);
            readyOff.Set(key, 0);
        }

        var withoutOn = new Run(readyOn);
        var withOn = new Run(knob.Changed(readyOn));
        var withoutOff = new Run(readyOff);
        var withOff = new Run(knob.Changed(readyOff));
        foreach (ChannelFormat channel in withOn.Recording.Format.Channels.Where(c => knob.Reaches(c.Name, isAllOn: true)))
        {
            double[] amongAll = Measure.Less(withOn.Analog(channel.Name), withoutOn.Analog(channel.Name));
            double[] alone = Measure.Less(withOff.Analog(channel.Name), withoutOff.Analog(channel.Name));
            double largest = withOn.Analog(channel.Name).Max(Math.Abs);
            double worst = amongAll.Zip(alone, (a, b) => Math.Abs(a - b)).Max();
            Assert.That(worst, Is.LessThan(1e-11 * largest), $"{channel.Name.Text()}: what the knob adds");
            Assert.That(alone.Max(Math.Abs), Is.GreaterThan(1e-5 * largest), $"{channel.Name.Text()} must change");
        }
    }

    // Both devices carry something, and somebody walks: else many knobs have nothing to act on.
    private static KeyValues Plain() => new KeyValues().Set(MovementKeys.Activity, "walking").Set(DeviceKeys.SecondCarries, "light_and_movement");

    private static KeyValues AllOnWithTapes() => SensorKnob.WithRecordings(AllOn.Busy());

    private static KeyValues Linear() => AllOnWithTapes()
        .Set(ElectrodeKeys.ContactLossPerH, 0)
        .Set(EcgAmplifierKeys.InputRangeMv, 0)
        .Set(ContactKeys.LiftOffsPerHour, 0)
        .Set(OpticsKeys.AmplifierFullNa, 0)
        .Set(LevelControlKeys.LevelControl, "off")
        .Set(OpticalNoiseKeys.ShotNoise, "off")
        .Set(OpticalNoiseKeys.FeedbackKohm, 0)
        .Set(AmbientChangeKeys.LampSwitchPerMin, 0);

    private static void AssertTouches(SensorKnob knob, Run before, Run after, bool isAllOn)
    {
        var touched = new List<string>();
        foreach (ChannelFormat channel in before.Recording.Format.Channels)
        {
            bool isSame = before.IsSame(after, channel.Name);
            Assert.That(isSame || knob.Reaches(channel.Name, isAllOn), $"{channel.Name.Text()} is none of the business of {knob.Name}");
            touched.AddRange(isSame ? [] : [channel.Name.Text()]);
        }

        foreach (ChannelFormat channel in before.Recording.Format.Channels)
        {
            Assert.That(
                touched.Contains(channel.Name.Text()) || !knob.Reaches(channel.Name, isAllOn: false),
                $"{channel.Name.Text()} must change with {knob.Name}; changed: {string.Join(' ', touched)}");
        }

        // A light that is there only then has its own rows.
        string[] green = [.. after.Recording.TruthText(Seconds).Except(before.Recording.TruthText(Seconds))];
        Assert.That(green, Has.All.StartsWith("Green "));
        Assert.That(green.Length == 0 || knob.Key == OpticsKeys.GreenNa);
        Assert.That(
            after.Recording.TruthText(Seconds).Where(row => !row.StartsWith("Green ", StringComparison.Ordinal)),
            Is.EqualTo(before.Recording.TruthText(Seconds).Where(row => !row.StartsWith("Green ", StringComparison.Ordinal))),
            "truth");
    }

    /// <summary>A stretch of a stream: what it gave, and the analog values before.</summary>
    private sealed class Run
    {
        private readonly Dictionary<ChannelName, List<double>> _analog;

        public Run(KeyValues values)
        {
            var stream = new SensorStream(values, Seed, Seconds);
            _analog = stream.Format.Channels.ToDictionary(c => c.Name, _ => new List<double>());
            stream.AnalogTap = (name, _, analog) => _analog[name].AddRange(analog);
            Clocks = [.. stream.Clocks];
            Recording = Recording.OfRest(stream, 10 * stream.Format.Clock.TicksPerSecond);
        }

        public Recording Recording { get; }

        private ChannelClock[] Clocks { get; }

        public double[] Analog(ChannelName name) => [.. _analog[name]];

        /// <summary>Whether a channel is the same to the bit in all that a receiver or a judge sees of it, and in its analog values.</summary>
        public bool IsSame(Run other, ChannelName name) =>
            Recording.Channel(name) == other.Recording.Channel(name)
            && Clocks.Single(c => c.Channel == name) == other.Clocks.Single(c => c.Channel == name)
            && Bits(_analog[name]).SequenceEqual(Bits(other._analog[name]))
            && Recording.Codes(name).SequenceEqual(other.Recording.Codes(name))
            && Recording.Status(name).SequenceEqual(other.Recording.Status(name))
            && Recording.Indices(name).SequenceEqual(other.Recording.Indices(name))
            && Told(Recording, name).SequenceEqual(Told(other.Recording, name));

        private static IEnumerable<long> Bits(List<double> values) => values.Select(BitConverter.DoubleToInt64Bits);

        private static IEnumerable<AcquisitionEvent> Told(Recording recording, ChannelName name) =>
            Enum.GetValues<AcquisitionKind>().SelectMany(kind => recording.Stretches(name, kind));
    }
}
