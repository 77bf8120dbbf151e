// SPDX-License-Identifier: MIT
using NUnit.Framework;
using SensorSim.Signals.Numerics;

namespace SensorSim.Signals.Tests.Numerics;

/// <summary>Stretches of samples against the same written out one by one (the definition), to the bit, for every rest that lanes leave.</summary>
public sealed class SpanLanesTests
{
    private const double Factor = 0.1;

    [Test]
    public void Multiply_AnyLength_IsTheSameAsOneByOne([Range(0, 13)] int length) =>
        AssertSame(length, values => SpanLanes.Multiply(values, Factor), (value, _, _) => value * Factor);

    [Test]
    public void Add_AnyLength_IsTheSameAsOneByOne([Range(0, 13)] int length) =>
        AssertSame(length, values => SpanLanes.Add(values, Factor), (value, _, _) => value + Factor);

    [Test]
    public void MultiplyThenAdd_AnyLength_IsTheSameAsOneByOne([Range(0, 13)] int length) =>
        AssertSame(length, values => SpanLanes.MultiplyThenAdd(values, Factor, 0.7), (value, _, _) => (Factor * value) + 0.7);

    [Test]
    public void AddProduct_WithAFactor_IsTheSameAsOneByOne([Range(0, 13)] int length) =>
        AssertSame(length, values => SpanLanes.AddProduct(values, Numbers(20, 7), Factor), (value, other, _) => value + (Factor * other));

    [Test]
    public void AddProduct_WithFactors_IsTheSameAsOneByOne([Range(0, 13)] int length) =>
        AssertSame(length, values => SpanLanes.AddProduct(values, Numbers(20, 7), Numbers(20, 11)), (value, other, factor) => value + (factor * other));

    // Words are eight at a time.
    [Test]
    public void Or_AnyLength_IsTheSameAsOneByOne([Range(0, 25)] int length)
    {
        ushort[] actual = [.. Enumerable.Range(0, length + 8).Select(i => (ushort)(i * 2609))];
        ushort[] expected = [.. actual.Select((word, i) => i < length ? (ushort)(word | 0x8421) : word)];
        SpanLanes.Or(actual.AsSpan(0, length), 0x8421);
        Assert.That(actual, Is.EqualTo(expected));
    }

    // Thirds, sevenths and so on: every product and sum is rounded.
    private static double[] Numbers(int count, int part) => [.. Enumerable.Range(1, count).Select(i => (i % 5) - 2 + ((double)i / part))];

    private delegate void Change(Span<double> values);

    // What stands behind the stretch must stay.
    private static void AssertSame(int length, Change change, Func<double, double, double, double> one)
    {
        double[] actual = Numbers(length + 4, 3);
        double[] expected = [.. actual.Select((value, i) => i < length ? one(value, Numbers(20, 7)[i], Numbers(20, 11)[i]) : value)];
        change(actual.AsSpan(0, length));
        Assert.That(actual, Is.EqualTo(expected));
    }
}
