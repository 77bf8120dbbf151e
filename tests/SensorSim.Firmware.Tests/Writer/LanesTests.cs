// SPDX-License-Identifier: MIT
using SensorSim.TwinWriter.Reading;
using SensorSim.TwinWriter.Writing;

namespace SensorSim.Firmware.Tests.Writer;

/// <summary>What computes in lanes of a processor is left out of the C, and nothing else is.</summary>
[TestFixture]
public sealed class LanesTests
{
    private const string InLanes = "public static partial class Snip\n{\n    public static int Fast(int a) => System.Runtime.Intrinsics.Vector256.Create(a)[0];\n}\n";

    [TestCase("Vector256.IsHardwareAccelerated")]
    [TestCase("Vector128.IsHardwareAccelerated")]
    [TestCase("X86.Avx2.IsSupported")]
    [TestCase("X86.X86Base.X64.IsSupported")]
    [TestCase("X86.Avx2.IsSupported && a > 4")]
    [TestCase("X86.Avx2.IsSupported && a > 4 && a < 9")]
    public void Write_BranchInLanes_IsLeftOut(string condition)
    {
        string left = Body($"if (System.Runtime.Intrinsics.{condition}) {{ return Fast(a); }} return a + 3;");
        Assert.That(left, Is.EqualTo(Body("return a + 3;")));
        string other = Body($"if (System.Runtime.Intrinsics.{condition}) {{ a = Fast(a); }} else if (a == 7) {{ a = 5; }} else {{ a = 6; }} return a;");
        Assert.That(other, Is.EqualTo(Body("if (a == 7) { a = 5; } else { a = 6; } return a;")));
        string block = Body($"if (System.Runtime.Intrinsics.{condition}) {{ a = Fast(a); }} else {{ int b = a + 4; a = b; }} return a;");
        Assert.That(block, Is.EqualTo(Body("{ int b = a + 4; a = b; } return a;")));
        string last = Body($"if (a == 7) {{ a = 5; }} else if (System.Runtime.Intrinsics.{condition}) {{ a = Fast(a); }} return a;");
        Assert.That(last, Is.EqualTo(Body("if (a == 7) { a = 5; } return a;")));
    }

    [TestCase("if (a > 4 && System.Runtime.Intrinsics.X86.Avx2.IsSupported) { return 1; } return a;", TestName = "Refuses_LanesAskedForLast")]
    [TestCase("if (!System.Runtime.Intrinsics.X86.Avx2.IsSupported) { return 1; } return a;", TestName = "Refuses_LanesAskedForTheOtherWay")]
    [TestCase("return System.Runtime.Intrinsics.X86.Avx2.IsSupported ? 1 : a;", TestName = "Refuses_LanesAskedForInAnExpression")]
    [TestCase("return Fast(a);", TestName = "Refuses_LanesWithoutAsking")]
    [TestCase("if (System.BitConverter.IsLittleEndian) { return 1; } return a;", TestName = "Refuses_AnotherQuestionToTheMachine")]
    public void Write_LanesElsewhere_AreRefused(string body) =>
        Assert.That(Assert.Throws<RefusalException>(() => Body(body))!.Message, Does.StartWith("SensorSim.Detection/Beats/Snip.cs:"));

    private static string Body(string body) => LibraryWriter.Write(SourceSet.Read(
        [
            new SourceFile("SensorSim.Detection/Beats/Snip.cs", "namespace SensorSim.Detection.Beats;\n\npublic static partial class Snip\n{\n    public static int F(int a)\n    {\n        " + body + "\n    }\n}\n"),
            new SourceFile("SensorSim.Detection/Beats/Snip.Lanes.cs", "namespace SensorSim.Detection.Beats;\n\n" + InLanes),
        ]))["beats/snip.c"];
}
