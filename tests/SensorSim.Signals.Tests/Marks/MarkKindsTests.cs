// SPDX-License-Identifier: MIT
using System.Text.RegularExpressions;
using SensorSim.Signals.Marks;

namespace SensorSim.Signals.Tests.Marks;

public sealed class MarkKindsTests
{
    [Test]
    public void All_Rows_StandAtTheNumberOfTheirKind()
    {
        MarkKind[] kinds = Enum.GetValues<MarkKind>();
        Assert.That(MarkKinds.All.Select(row => row.Kind), Is.EqualTo(kinds));
        Assert.That(kinds.Select(kind => (int)kind), Is.EqualTo(Enumerable.Range(0, kinds.Length)));
    }

    [Test]
    public void All_Texts_AreUniqueSnakeCaseAndRoundTrip()
    {
        Assert.That(MarkKinds.All.Select(row => row.Text), Is.Unique);
        foreach (MarkKindInfo row in MarkKinds.All)
        {
            Assert.That(row.Text, Does.Match(new Regex("^[a-z][a-z0-9]*(_[a-z]+)*$")));
            Assert.That(row.Kind.Text(), Is.EqualTo(row.Text));
            Assert.That(row.Kind.Info(), Is.SameAs(row));
            Assert.That(MarkKinds.TryParse(row.Text, out MarkKind parsed), Is.True);
            Assert.That(parsed, Is.EqualTo(row.Kind));
        }
    }

    [Test]
    public void All_KindsWithAUnitInTheirName_HaveThatUnit()
    {
        foreach (MarkKindInfo row in MarkKinds.All.Where(row => row.Sort != MarkSort.Event))
        {
            Assert.That(row.Text, Does.EndWith("_" + (row.ValueUnit == "%" ? "percent" : row.ValueUnit.ToLowerInvariant())));
        }
    }

    [TestCase("R_peak")]
    [TestCase("")]
    [TestCase("r_peak ")]
    public void TryParse_UnknownText_IsFalse(string text) => Assert.That(MarkKinds.TryParse(text, out _), Is.False);

    [Test]
    public void Mark_Empty_HasNothingPaired()
    {
        var mark = new Mark { Sample = -1, Fraction256 = 255, ValueMilli = -1500 };
        Assert.That((mark.PairedChannel, mark.Position256, mark.Value), Is.EqualTo((Mark.None, -1L, -1.5)));
    }
}
