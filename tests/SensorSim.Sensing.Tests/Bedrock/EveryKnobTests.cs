// SPDX-License-Identifier: MIT
using SensorSim.Body.Movement;
using SensorSim.Sensing.Devices;
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Movement;
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

    private static readonly string[] s_rateEnds = ["_per_min", "_per_h", "_per_million", "loss_percent"];

    private static readonly Run s_allOn = new(AllOnWithTapes());

    private static IEnumerable<TestCaseData> Knobs() => SensorKnobs.All.Select(k => new TestCaseData(k).SetArgDisplayNames(k.Name));

    private static IEnumerable<TestCaseData> AddingKnobs() =>
        SensorKnobs.All.Where(k => k.Adds).Select(k => new TestCaseData(k).SetArgDisplayNames(k.Name));

    // Lamps and clouds go to and fro: every switching stays, but one more turns all that follows round. Tested with their switch.
    private static IEnumerable<TestCaseData> Rates() =>
        SensorKnobs.All.Where(k => s_rateEnds.Any(e => k.Name.EndsWith(e, StringComparison.Ordinal)))
            .Where(k => k.Key != AmbientChangeKeys.LampSwitchPerMin && k.Key != AmbientChangeKeys.ShadePerMin)
            .Select(k => new TestCaseData(k).SetArgDisplayNames(k.Name));

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

    // Thinned from candidates of a fixed rate: where a low rate changes a sample, a higher one does too.
    [TestCaseSource(nameof(Rates))]
    public void Rate_Higher_KeepsEveryEarlierEvent(object of)
    {
        var knob = (SensorKnob)of;
        var key = (NumberKey)knob.Key;

        // Noise and fine converters: a code that is held is hardly ever the one that would have stood there.
        KeyValues ready = knob.Ready(Settings.Fine(Plain())).Set(key, 0)
            .Set(EcgAmplifierKeys.WhiteNoiseUvRms, 300).Set(OpticsKeys.WhiteNoiseNaRms, 30).Set(AccelerometerKeys.NoiseUgPerRthz, 10000);
        var none = new Run(ready, 5 * Seconds);
        var low = new Run(ready.Copy().Set(key, 0.25 * key.Maximum), 5 * Seconds);
        var high = new Run(ready.Copy().Set(key, key.Maximum), 5 * Seconds);
        int events = 0;
        foreach (ChannelFormat channel in none.Recording.Format.Channels.Where(c => knob.Reaches(c.Name, isAllOn: false)))
        {
            HashSet<long> few = none.Changed(low, channel.Name);
            HashSet<long> many = none.Changed(high, channel.Name);

            // A code held for longer may still be by chance what stood there: one in thousands of codes.
            int[] strays = [.. few.Except(many).Select(i => (int)i)];
            Assert.That(strays, Has.Length.LessThanOrEqualTo(few.Count / 1000), $"{channel.Name.Text()}: samples that only the lower rate changes");
            events += few.Count;
            Assert.That(many, Has.Count.GreaterThanOrEqualTo(few.Count));
        }

        Assert.That(events, Is.GreaterThan(0), "the lower rate must do something");
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

        public Run(KeyValues values, double seconds = Seconds)
        {
            var stream = new SensorStream(values, Seed, seconds);
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

        /// <summary>Samples that another run has changed, lost or given in place of one that was lost.</summary>
        public HashSet<long> Changed(Run other, ChannelName name)
        {
            HashSet<long> changed = [.. Enumerable.Range(0, _analog[name].Count).Where(i => _analog[name][i] != other._analog[name][i]).Select(i => (long)i)];
            Dictionary<long, (int Code, ushort Status)> mine = ByIndex(name);
            Dictionary<long, (int Code, ushort Status)> others = other.ByIndex(name);
            changed.UnionWith(mine.Where(m => !others.TryGetValue(m.Key, out (int Code, ushort Status) o) || o != m.Value).Select(m => m.Key));
            changed.UnionWith(others.Keys.Where(o => !mine.ContainsKey(o)));
            return changed;
        }

        private Dictionary<long, (int Code, ushort Status)> ByIndex(ChannelName name)
        {
            int[] codes = Recording.Codes(name);
            ushort[] status = Recording.Status(name);
            return Recording.Indices(name).Select((index, i) => (index, i)).ToDictionary(p => p.index, p => (codes[p.i], status[p.i]));
        }

        private static IEnumerable<long> Bits(List<double> values) => values.Select(BitConverter.DoubleToInt64Bits);

        private static IEnumerable<AcquisitionEvent> Told(Recording recording, ChannelName name) =>
            Enum.GetValues<AcquisitionKind>().SelectMany(kind => recording.Stretches(name, kind));
    }
}
