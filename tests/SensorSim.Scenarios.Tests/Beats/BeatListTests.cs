// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Beats;
using SensorSim.Signals.Marks;

namespace SensorSim.Scenarios.Tests.Beats;

/// <summary>Lists of beats, within a line and as a table.</summary>
[TestFixture]
public sealed class BeatListTests
{
    [Test]
    public void ReadInline_Words_AreBeatsWithTheirIntervals()
    {
        var beats = BeatListReader.ReadInline("normal 800, ventricular 480,normal 1120.5 ,  atrial   600, junctional 1400, paced 1000", Fail);

        Assert.That(beats, Is.EqualTo(new[]
        {
            (BeatClass.Normal, 0.8), (BeatClass.VentricularPremature, 0.48), (BeatClass.Normal, 1.1205), (BeatClass.AtrialPremature, 0.6),
            (BeatClass.JunctionalEscape, 1.4), (BeatClass.Paced, 1.0),
        }));

        static void Fail(int place, string message) => Assert.Fail($"{place}: {message}");
    }

    // Places count from 0 in the text.
    [TestCase("normal 800, norml 700", "12: \"norml\" is no beat; the nearest is normal of normal, atrial, ventricular, junctional, paced")]
    [TestCase("normal 800,  normal  70", "21: \"70\" must be an interval of 200 to 15000 ms")]
    [TestCase("normal 800, paced", "12: \"paced\" is no beat; a beat is a word and the ms up to the next beat, such as normal 800")]
    [TestCase("normal 800, 700", "12: \"700\" is no beat; a beat is a word and the ms up to the next beat, such as normal 800")]
    [TestCase("normal 800,", "11: \"\" is no beat; a beat is a word and the ms up to the next beat, such as normal 800")]
    [TestCase("", "0: \"\" is no beat; a beat is a word and the ms up to the next beat, such as normal 800")]
    [TestCase("normal 8e2", "7: \"8e2\" must be an interval of 200 to 15000 ms")]
    [TestCase("normal 15000.5", "7: \"15000.5\" must be an interval of 200 to 15000 ms")]
    [TestCase("normal 800 ventricular 480", "0: \"normal 800 ventricular 480\" is no beat; a beat is a word and the ms up to the next beat, such as normal 800")]
    [TestCase("fast 10", "0: \"fast\" is no beat; the nearest is paced of normal, atrial, ventricular, junctional, paced", "5: \"10\" must be an interval of 200 to 15000 ms")]
    public void ReadInline_Mistake_IsNamedWithItsPlace(string text, params string[] expected)
    {
        var found = new List<string>();
        BeatListReader.ReadInline(text, (place, message) => found.Add($"{place}: {message}"));

        Assert.That(found, Is.EqualTo(expected));
    }

    [TestCase("rr_ms\n800\n480.25\n")]
    [TestCase("rr_ms\r\n800\r\n480.25")]
    [TestCase("rr_ms,class\n800,\n480.25,normal\n")]
    [TestCase("class,rr_ms\nnormal,800\nnormal,480.25\n")]
    public void ReadCsv_FormsOfTheSame_ReadTheSame(string text) =>
        Assert.That(Csv(text).Beats, Is.EqualTo(new[] { (BeatClass.Normal, 0.8), (BeatClass.Normal, 0.48025) }));

    [Test]
    public void ReadCsv_Classes_AreTaken() => Assert.That(
        Csv("rr_ms,class\n480,ventricular\n700,atrial\n").Beats, Is.EqualTo(new[] { (BeatClass.VentricularPremature, 0.48), (BeatClass.AtrialPremature, 0.7) }));

    [TestCase("", "1, 0: found the header \"\"; it must be rr_ms, or rr_ms,class")]
    [TestCase("rr\n800\n", "1, 0: found the header \"rr\"; it must be rr_ms, or rr_ms,class")]
    [TestCase("rr_ms,note\n800,x\n", "1, 0: found the header \"rr_ms,note\"; it must be rr_ms, or rr_ms,class")]
    [TestCase("rr_ms\n", "1, 0: there is no beat after the header rr_ms, or rr_ms,class; at least one is needed")]
    [TestCase("rr_ms,class\n800\n", "2, 0: found 1 fields; the header has 2")]
    [TestCase("rr_ms\n800\n\n700\n", "3, 1: \"\" must be an interval of 200 to 15000 ms")]
    [TestCase("rr_ms,class\n800,normal\n8x0,normal\n700,odd\n", "3, 1: \"8x0\" must be an interval of 200 to 15000 ms", "4, 5: \"odd\" is no beat; the nearest is paced of normal, atrial, ventricular, junctional, paced")]
    public void ReadCsv_Mistake_IsNamedWithLineAndColumn(string text, params string[] expected) =>
        Assert.That(Csv(text).Mistakes, Is.EqualTo(expected));

    [Test]
    public void ReadCsv_WrongFile_StopsAfterTwentyMistakes() =>
        Assert.That(Csv("rr_ms\n" + string.Concat(Enumerable.Repeat("x\n", 5000))).Mistakes, Has.Count.EqualTo(20));

    private static (IReadOnlyList<(BeatClass Class, double RrSeconds)> Beats, List<string> Mistakes) Csv(string text)
    {
        var found = new List<string>();
        return (BeatListReader.ReadCsv(text, (line, column, message) => found.Add($"{line}, {column}: {message}")), found);
    }
}
