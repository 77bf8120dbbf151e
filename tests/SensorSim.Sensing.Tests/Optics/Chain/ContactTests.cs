// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Optics.Chain;

/// <summary>Contact with the skin: by the knob, and lost for a while.</summary>
public sealed class ContactTests
{
    private static readonly ChannelName[] s_slots = [ChannelName.Red, ChannelName.Infrared, ChannelName.Dark];

    private static KeyValues Room() => Settings.Steady().Set(AmbientKeys.LevelNa, 40).Set(AmbientKeys.FlickerPercent, 25);

    // LED light × c; the room × (1 + (ratio − 1)(1 − c)): a definition of this project.
    [TestCase(100, 10, 1)]
    [TestCase(60, 10, 4.6)]
    [TestCase(25, 1, 1)]
    [TestCase(0, 20, 20)]
    public void Contact_OfAShare_DimsTheLedAndLetsTheRoomIn(double percent, double leak, double room)
    {
        Analog led = Analog.Of(Settings.Steady(), 20);
        Analog both = Analog.Of(Room(), 20);
        Analog less = Analog.Of(Room().Set(ContactKeys.ContactPercent, percent).Set(ContactKeys.LeakRatio, leak), 20);
        foreach (ChannelName name in s_slots)
        {
            double[] ambient = Measure.Less(both[name], led[name]);
            double[] expected = [.. led[name].Zip(ambient, (l, a) => (percent / 100 * l) + (room * a))];
            Assert.That(less[name], Is.EqualTo(expected).Within(1e-9), name.Text());
        }
    }

    [TestCase(5, false)]
    [TestCase(4.9, true)]
    [TestCase(0, true)]
    public void Contact_BelowAFewPercent_IsFlaggedInEverySlot(double percent, bool isFlagged)
    {
        Analog analog = Analog.Of(Room().Set(ContactKeys.ContactPercent, percent), 3);
        foreach (ChannelName name in s_slots)
        {
            Assert.That(analog.Status(name), Has.All.EqualTo(isFlagged ? (ushort)SampleStatus.NoContact : (ushort)0), name.Text());
        }
    }

    // Candidates in cells of 10 s: their number is binomial; each takes away its length less one ramp, 2 − 0.1 s on the mean. At 1 % of the
    // cells two overlap in one of a hundred at the most.
    [Test]
    public void LiftOffs_OverAMonth_AreAsManyAndAsLongAsStated()
    {
        const double Hours = 700;
        const double PerHour = 3.6;
        var liftOffs = new LiftOffs(new KeyValues().Set(ContactKeys.LiftOffsPerHour, PerHour).Set(ContactKeys.LiftOffSeconds, 2), 7);
        var grid = new SampleGrid(0, 0.02);
        double[] contact = new double[50];
        double lost = 0;
        int count = 0;
        double last = 1;
        for (long first = 0; first < Hours * 3600 * 50; first += contact.Length)
        {
            if (liftOffs.Draw(contact, 1, grid, first))
            {
                foreach (double c in contact)
                {
                    lost += (1 - c) * grid.StepSeconds;
                    count += c < 0.5 && last >= 0.5 ? 1 : 0;
                    last = c;
                }
            }
        }

        const double Expected = PerHour * Hours;
        double error = 4 * Math.Sqrt(Expected * 0.99);
        Assert.That(count, Is.EqualTo(Expected).Within(error));

        // Lengths are uniform from 1 to 3 s: variance 1/3 s².
        Assert.That(lost / count, Is.EqualTo(1.9).Within((4 * Math.Sqrt(1 / 3.0 / count)) + 0.01));
    }

    // From no candidate to all: what a lower rate has, a higher one has at the same instants.
    [Test]
    public void LiftOffs_AtAHigherRate_AreThoseOfTheLowerAndMore()
    {
        double[] few = Led(60);
        double[] many = Led(300);
        double[] none = Led(0);
        int fewLost = few.Zip(none, (f, n) => f < n ? 1 : 0).Sum();
        int manyLost = many.Zip(none, (m, n) => m < n ? 1 : 0).Sum();
        Assert.That(fewLost, Is.GreaterThan(500));
        Assert.That(manyLost, Is.GreaterThan(2 * fewLost));
        Assert.That(few.Zip(many, (f, m) => m <= f), Has.All.True);

        static double[] Led(double perHour) =>
            Analog.Of(Settings.Steady().Set(ContactKeys.LiftOffsPerHour, perHour), 600)[ChannelName.Red];
    }

    // Asked in any order, a stretch is touched where drawing it changes something; only edges that take nothing yet may be missed.
    [Test]
    public void Touch_OfAStretch_IsWhetherDrawingItLowersTheContact()
    {
        KeyValues values = new KeyValues().Set(ContactKeys.LiftOffsPerHour, 200).Set(ContactKeys.LiftOffSeconds, 3);
        var asked = new LiftOffs(values, 7);
        var grid = new SampleGrid(0, 0.001);
        double[] contact = new double[640];
        int touched = 0;
        for (int i = 0; i < 6000; i++)
        {
            // Forward, and a little back again, as slots ask one after the other.
            long first = (i - (i % 3)) * 640;
            Array.Fill(contact, 1);
            bool isDrawn = new LiftOffs(values, 7).Draw(contact, 1, grid, first);
            Assert.That(asked.Touch(grid.Seconds(first), grid.Seconds(first + 639)), Is.EqualTo(isDrawn), $"from sample {first}");
            Assert.That(contact.Min() < 1, Is.EqualTo(isDrawn), $"from sample {first}");
            touched += isDrawn ? 1 : 0;
        }

        // 200 times some 3.6 s of an hour is a fifth.
        Assert.That(touched, Is.InRange(700, 1800));
    }

    // Every slot at its own instants, the same lift-off: 0.25 ms and 0.5 ms after red, the smooth ramp moves by 1.5 per ramp at the most.
    [Test]
    public void LiftOffs_OfEverySlot_AreTheSame()
    {
        KeyValues values = Room().Set(ContactKeys.LiftOffsPerHour, 300).Set(AmbientKeys.FlickerPercent, 0).Set(AmbientKeys.LevelNa, 100);
        Analog analog = Analog.Of(values, 300);
        Analog firm = Analog.Of(Settings.Steady(), 300);

        // The dark slot shows the leak, 100 × 9 × (1 − c); red the LED too.
        double[] fromDark = [.. analog[ChannelName.Dark].Select(x => 1 - ((x - 100) / 900))];
        double[] fromRed = [.. analog[ChannelName.Red].Zip(firm[ChannelName.Red], (x, led) => (x - 1000) / (led - 900))];
        Assert.That(fromDark.Min(), Is.Zero.Within(1e-12));
        Assert.That(fromDark, Is.EqualTo(fromRed).Within(500e-6 * 1.5 / 0.1));
        ushort[] status = analog.Status(ChannelName.Dark);
        Assert.That(status.Select(s => s != 0), Is.EqualTo(fromDark.Select(c => c < 0.05)));
        Assert.That(status, Has.Some.EqualTo((ushort)SampleStatus.NoContact));
    }

    // The body does not notice: truth, ECG and acceleration stay.
    [Test]
    public void LiftOffs_AndContact_ChangeNeitherTruthNorOtherSensors()
    {
        Recording without = Recording.Of(Settings.Everything(), 60);
        Recording with = Recording.Of(
            Settings.Everything().Set(ContactKeys.LiftOffsPerHour, 360).Set(ContactKeys.PressureMmhg, 90)
                .SetChanges(ContactKeys.ContactPercent, [new CourseChange(20, ChangeKind.Ramp, 30, 10)], []),
            60);
        Assert.That(with.TruthText(60), Is.EqualTo(without.TruthText(60)));
        foreach (ChannelName name in new[] { ChannelName.Ecg, ChannelName.AccelX, ChannelName.AccelY, ChannelName.AccelZ })
        {
            Assert.That(with.Codes(name), Is.EqualTo(without.Codes(name)), name.Text());
        }

        Assert.That(with.Codes(ChannelName.Red), Is.Not.EqualTo(without.Codes(ChannelName.Red)));
    }
}
