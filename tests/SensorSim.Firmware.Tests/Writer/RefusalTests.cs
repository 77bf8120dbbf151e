// SPDX-License-Identifier: MIT
using SensorSim.TwinWriter.Reading;
using SensorSim.TwinWriter.Writing;

namespace SensorSim.Firmware.Tests.Writer;

/// <summary>What has no sure translation is refused, with its place, and not guessed.</summary>
[TestFixture]
public sealed class RefusalTests
{
    private const string Held = "public struct Held { private int _at; public int Value; public int Next() { _at++; return _at; } public readonly int Seen() => _at; }";

    [TestCase("public static int F(int a) => (int)(a * 0.5);", TestName = "Refuses_FloatingPoint")]
    [TestCase("public static int F(int a) => a == 0 ? throw new System.ArgumentException() : a;", TestName = "Refuses_Throw")]
    [TestCase("public static int F(string a) => a.Length;", TestName = "Refuses_Text")]
    [TestCase("public static int F(int[] a) => a[0];", TestName = "Refuses_Array")]
    [TestCase("public static int F(int a) { int G(int x) => x + 1; return G(a); }", TestName = "Refuses_LocalFunction")]
    [TestCase("public static int F(int a) { System.Func<int, int> g = x => x + 1; return g(a); }", TestName = "Refuses_Lambda")]
    [TestCase("public static int F(int a) { goto end; end: return a; }", TestName = "Refuses_Goto")]
    [TestCase("public static int F(int a) => System.Math.Abs(a);", TestName = "Refuses_CallOutside")]
    [TestCase("public static int F(int? a) => a ?? 0;", TestName = "Refuses_Nullable")]
    [TestCase("public static int F(int a) => a switch { 0 => 1, 1 => 2 };", TestName = "Refuses_SwitchWithoutRest")]
    [TestCase("public static int F(int a) => a == 0 ? 0 : F(a - 1);", TestName = "Refuses_Recursion")]
    [TestCase("public static int F(in Held a) => a.Next();", TestName = "Refuses_HiddenCopyOfParameter")]
    [TestCase("public static int F(object a) => a is int ? 1 : 0;", TestName = "Refuses_Object")]
    [TestCase("public static int G; public static int F(int a) => a + G;", TestName = "Refuses_StaticField")]
    [TestCase("public static int F(System.ReadOnlySpan<int> a) => a[^1];", TestName = "Refuses_IndexFromEnd")]
    [TestCase("public static int F(System.ReadOnlySpan<int> a) => a[1..2].Length;", TestName = "Refuses_RangeWithBothEnds")]
    [TestCase("public static int F(ref Held a) { int[] x = null!; return x is null ? 1 : a.Value; }", TestName = "Refuses_Reference")]
    [TestCase("public static int F(int a) { using System.IDisposable x = null!; return a; }", TestName = "Refuses_Using")]
    [TestCase("public static int F(int a) { try { return a; } finally { a++; } }", TestName = "Refuses_Try")]
    [TestCase("public static int F(int a) { do { a += 2; } while (--a > 9); return a; }", TestName = "Refuses_ChangeInConditionAtEnd")]
    public void Write_UnknownConstruct_IsRefusedWithItsPlace(string member)
    {
        RefusalException refusal = Assert.Throws<RefusalException>(() => Write(member))!;
        Assert.That(refusal.Message, Does.Contain("SensorSim.Detection/Beats/Snip.cs:"));
        Assert.That(refusal.Message, Does.Not.Contain("\n"));
    }

    [Test]
    public void Write_NoCSharp_IsRefusedWithItsPlace() =>
        Assert.That(Assert.Throws<RefusalException>(() => Write("public static int F(int a) => b;"))!.Message, Does.StartWith("SensorSim.Detection/Beats/Snip.cs"));

    [Test]
    public void Write_Class_IsRefused() => Assert.Throws<RefusalException>(() => Write("public sealed class C { public int X; }"));

    [Test]
    public void Write_WhatIsKnown_IsNotRefused() =>
        Assert.That(Write("public static int F(ref Held a) => a.Next();").Keys, Does.Contain("beats/snip.c"));

    private static IReadOnlyDictionary<string, string> Write(string member) => LibraryWriter.Write(SourceSet.Read(
        [new SourceFile("SensorSim.Detection/Beats/Snip.cs", "namespace SensorSim.Detection.Beats;\n\n" + Held + "\n\npublic static class Snip\n{\n    " + member + "\n}\n")]));
}
