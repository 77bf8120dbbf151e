// SPDX-License-Identifier: MIT
using SensorSim.Detection;
using SensorSim.Signals.Marks;
using SensorSim.Studies.Vectors.Sets;

namespace SensorSim.Studies.Tests.Vectors;

/// <summary>What index and pictures of a set call things.</summary>
public sealed class SetWordsTests
{
    [Test]
    public void Every_reason_of_the_librarys_gates_has_a_word()
    {
        // Against the library's own table, whose names are written as words.
        string[] names = [.. Enum.GetValues<GateReason>().Select(r => string.Concat(r.ToString().Select((c, i) => i > 0 && char.IsUpper(c) ? $" {char.ToLowerInvariant(c)}" : $"{char.ToLowerInvariant(c)}")))];
        names[(int)GateReason.Ambient] = "room light";
        Assert.That(SetWords.GateReasons, Is.EqualTo(names));
        Assert.That(SetWords.GateReason((double)GateReason.NoContact), Is.EqualTo("no contact"));
        Assert.That(SetWords.GateReason(42), Is.EqualTo("reason 42"));
        Assert.That(SetWords.GateReason(2.5), Is.EqualTo("reason 2.5"));
    }

    [Test]
    public void A_kind_is_told_without_its_unit()
    {
        Assert.That(SetWords.Kind(MarkKind.HeartRateBpm), Is.EqualTo("heart rate"));
        Assert.That(SetWords.Unit(MarkKind.HeartRateBpm), Is.EqualTo("per minute"));
        Assert.That(SetWords.Kind(MarkKind.RPeak), Is.EqualTo("r peak"));
        Assert.That(SetWords.Unit(MarkKind.GateShut), Is.Empty);
        Assert.That(MarkKinds.All.Select(k => SetWords.Kind(k.Kind)), Is.All.Not.Contains("_"));
    }
}
