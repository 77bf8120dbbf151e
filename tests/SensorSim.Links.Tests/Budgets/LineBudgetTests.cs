// SPDX-License-Identifier: MIT
using SensorSim.Links.Budgets;
using SensorSim.Signals.Streams;

namespace SensorSim.Links.Tests.Budgets;

/// <summary>What a stream needs of a line, against sums done by hand from the protocol's page.</summary>
public sealed class LineBudgetTests
{
    [Test]
    public void Ecg250_Needs_TenFramesASecond()
    {
        // 25 samples a frame: header 16, section 4, status 2, codes 50, and 14 around; at worst 25 status words.
        var budget = new LineBudget(Format((ChannelName.Ecg, 250, 16)));
        Assert.That(budget.Samples, Is.EqualTo(new LineNeed(10 * (16 + 4 + 2 + 50 + 14), 10 * (16 + 4 + 50 + 50 + 14))));
    }

    [Test]
    public void Ecg1000Of24Bits_Needs_HalvedFrames()
    {
        // 100 samples are 300 bytes: two frames of 50. At worst 50 are too many as well: 25 fit, of the 75 left 37, then 38.
        var budget = new LineBudget(Format((ChannelName.Ecg, 1000, 24)));
        Assert.That(budget.Samples, Is.EqualTo(new LineNeed(20 * (16 + 4 + 2 + 150 + 14), 10 * ((3 * (16 + 4 + 14)) + (100 * 5)))));
    }

    [Test]
    public void SlowChannel_Needs_ASectionOnlyWhereItHasASample()
    {
        // 1 Hz beside 10 Hz: ten frames with a section of one sample, one of them with two.
        var budget = new LineBudget(Format((ChannelName.Ecg, 10, 12), (ChannelName.Red, 1, 12)));
        Assert.That(budget.Samples.UsualBytesPerSecond, Is.EqualTo((10 * (16 + 14)) + (11 * (4 + 2 + 2))));
    }

    [Test]
    public void Speed_Multiplies()
    {
        StreamFormat format = Format((ChannelName.Ecg, 250, 16));
        var budget = new LineBudget(format, 2.5);
        Assert.That(budget.Samples, Is.EqualTo(new LineNeed(2150, 3350)));
    }

    [TestCase(null, LineFit.Fits)]
    [TestCase(100_000L, LineFit.Fits)]
    [TestCase(6740L, LineFit.Fits)]
    [TestCase(6739L, LineFit.Tight)]
    [TestCase(3720L, LineFit.Tight)]
    [TestCase(3719L, LineFit.TooMuch)]
    public void Fit_TurnsAtTheNeeds(long? bytesPerSecond, LineFit fit)
        => Assert.That(new LineBudget(Format((ChannelName.Ecg, 1000, 24))).Fit(bytesPerSecond), Is.EqualTo(fit));

    [Test]
    public void Sentence_OfFit_IsNone() => Assert.That(new LineBudget(Format((ChannelName.Ecg, 250, 16))).Sentence("line X", null), Is.Null);

    // Half a tenth: 16 + ecg 4 + 2 + 150 + red 4 + 2 + 10 + 14 = 202. At worst 25, 37 and 38 samples of ecg with 3, 4 and 3 of red: 161, 225, 226, and 14 each.
    [Test]
    public void Sentence_OfTooMuch_NamesNumbersAndWhatToChange()
        => Assert.That(
            new LineBudget(Format((ChannelName.Ecg, 1000, 24), (ChannelName.Red, 100, 16))).Sentence("serial port X at 19200 baud", 1920),
            Is.EqualTo("The stream needs 4040 bytes/s, 6540 at worst, and the serial port X at 19200 baud carries 1920: set the baud rate to at least 57600, "
                + "or lower rates, bits or channels (most takes ecg: 1000 Hz of 24 bits)."));

    [Test]
    public void Sentence_OfTight_SaysWhatIsSure()
        => Assert.That(
            new LineBudget(Format((ChannelName.Ecg, 1000, 24))).Sentence("line X", 5760),
            Is.EqualTo("The stream needs 3720 bytes/s, 6020 at worst, and the line X carries 5760: it fits while few status words change; "
                + "set the baud rate to at least 115200 to be sure."));

    [Test]
    public void Sentence_OfAnswersThatDoNotFit_SaysSo()
        => Assert.That(
            new LineBudget(Format((ChannelName.Ecg, 250, 16))).Sentence("line X", 960),
            Does.StartWith("The answers need 2400 bytes/s, 6740 at worst, and the line X carries 960: set the baud rate to at least 38400"));

    [Test]
    public void Sentence_ThatNoBaudHelps_SaysSo()
        => Assert.That(
            new LineBudget(Format((ChannelName.Ecg, 1000, 24)), 1000).Sentence("line X", 300_000),
            Does.Contain("at speed 1000 needs 3720000 bytes/s").And.Contain("no baud rate carries that"));

    [TestCase(30, 300)]
    [TestCase(31, 600)]
    [TestCase(11_520, 115_200)]
    [TestCase(11_521, 230_400)]
    [TestCase(300_000, 3_000_000)]
    [TestCase(300_001, null)]
    public void LowestBaud_CarriesTheBytes(long bytesPerSecond, int? baud) => Assert.That(LineBudget.LowestBaud(bytesPerSecond), Is.EqualTo(baud));

    private static StreamFormat Format(params (ChannelName Name, int RateHz, int Bits)[] channels) => new(channels.Select(c => new ChannelFormat
    {
        Name = c.Name,
        Device = "chest",
        RateHz = c.RateHz,
        Bits = c.Bits,
        IsSigned = true,
        UnitPerCode = 0.001,
    }));
}
