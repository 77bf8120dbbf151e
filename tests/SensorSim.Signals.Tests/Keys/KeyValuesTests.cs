// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;

namespace SensorSim.Signals.Tests.Keys;

public sealed class KeyValuesTests
{
    private static readonly NumberKey s_rate = new()
    {
        Name = "heart.rate_bpm", Unit = "bpm", Minimum = 30, Maximum = 220, Default = 70, Meaning = "Rate.", Source = "test",
    };

    private static readonly NumberKey s_bits = new()
    {
        Name = "ecg.converter.bits", Minimum = 8, Maximum = 24, Default = 16, IsWhole = true, Meaning = "Bits.", Source = "test",
    };

    private static readonly ChoiceKey s_site = new()
    {
        Name = "optics.site", Choices = ["finger", "wrist"], Default = "finger", Meaning = "Place.", Source = "test",
    };

    [Test]
    public void Indexer_NothingSet_GivesDefaults()
    {
        var values = new KeyValues();
        Assert.That((values[s_rate], values[s_site]), Is.EqualTo((70.0, "finger")));
        Assert.That(values.IsSet(s_rate), Is.False);
    }

    [TestCase(30.0)]
    [TestCase(220.0)]
    [TestCase(71.5)]
    public void Set_NumberInRange_IsKept(double value)
    {
        KeyValues values = new KeyValues().Set(s_rate, value).Set(s_site, "wrist");
        Assert.That((values[s_rate], values[s_site]), Is.EqualTo((value, "wrist")));
        Assert.That(values.IsSet(s_rate), Is.True);
    }

    [TestCase(29.999)]
    [TestCase(220.001)]
    [TestCase(double.NaN)]
    [TestCase(double.PositiveInfinity)]
    public void Set_NumberOutOfRange_SaysWhatIsAllowed(double value) =>
        Assert.That(
            () => new KeyValues().Set(s_rate, value),
            Throws.TypeOf<ArgumentOutOfRangeException>().With.Message.StartsWith("heart.rate_bpm must be 30 to 220 bpm."));

    [Test]
    public void Set_FractionForAWholeKey_SaysWhatIsAllowed() =>
        Assert.That(
            () => new KeyValues().Set(s_bits, 12.5),
            Throws.TypeOf<ArgumentOutOfRangeException>().With.Message.StartsWith("ecg.converter.bits must be 8 to 24, whole."));

    [TestCase("Wrist")]
    [TestCase("")]
    public void Set_UnknownWord_ListsTheChoices(string value) =>
        Assert.That(
            () => new KeyValues().Set(s_site, value),
            Throws.TypeOf<ArgumentOutOfRangeException>().With.Message.StartsWith("optics.site must be one of finger, wrist."));

    [Test]
    public void Copy_ChangedLater_LeavesTheOriginal()
    {
        KeyValues original = new KeyValues().Set(s_rate, 80);
        KeyValues copy = original.Copy().Set(s_rate, 90).Set(s_site, "wrist");
        Assert.That((original[s_rate], original[s_site], copy[s_rate]), Is.EqualTo((80.0, "finger", 90.0)));
    }

    [Test]
    public void Course_AskedAgain_IsTheSameUntilTheKnobGetsAnother()
    {
        NumberKey live = s_rate with { IsLive = true };
        var values = new KeyValues();
        Course first = values.Course(live);
        Assert.That(values.Course(live), Is.SameAs(first));
        Assert.That(values.Copy().Set(live, 80).Course(live).Value(5), Is.EqualTo(80));
        Assert.That(values.Set(live, 90).Course(live).Value(5), Is.EqualTo(90));
        values.SetChanges(live, [new CourseChange(2, ChangeKind.Step, 100, 0)], []);
        Assert.That((values.Course(live).Value(1), values.Course(live).Value(5)), Is.EqualTo((90.0, 100.0)));
        Assert.That(first.Value(5), Is.EqualTo(70));
    }

    [Test]
    public void Made_AskedAgain_IsMadeOnceForEachStateOfTheValues()
    {
        int made = 0;
        int[] Make(KeyValues v) => [++made, (int)v[s_rate]];
        KeyValues values = new KeyValues().Set(s_site, "wrist");
        Assert.That(values.Made(Make), Is.EqualTo(new[] { 1, 70 }));
        Assert.That(values.Made(Make), Is.EqualTo(new[] { 1, 70 }));
        Assert.That(values.Copy().Made(Make), Is.EqualTo(new[] { 2, 70 }));
        Assert.That(values.Set(s_rate, 80).Made(Make), Is.EqualTo(new[] { 3, 80 }));
        Assert.That(values.Set(s_site, "finger").Made(Make), Is.EqualTo(new[] { 4, 80 }));
        var text = new TextKey { Name = "ecg_noise.file", MaximumLength = 10, Meaning = "File.", Source = "test" };
        Assert.That(values.Attach(text, "x").Made(Make), Is.EqualTo(new[] { 5, 80 }));
    }

    [Test]
    public void Definition_Name_SplitsAtItsLastDot() =>
        Assert.That((s_bits.Section, s_bits.Key, s_bits.DefaultText), Is.EqualTo(("ecg.converter", "bits", "16")));

    [Test]
    public void RangeText_CultureWithDecimalComma_StaysInvariant()
    {
        // Made by hand, so that it works where no culture data are installed.
        var comma = (CultureInfo)CultureInfo.InvariantCulture.Clone();
        comma.NumberFormat.NumberDecimalSeparator = ",";
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = comma;
            NumberKey key = s_rate with { Minimum = 0.5, Maximum = 1.5 };
            Assert.That(key.RangeText, Is.EqualTo("0.5 to 1.5"));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }
}
