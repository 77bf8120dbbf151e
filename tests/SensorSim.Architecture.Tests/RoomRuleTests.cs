// SPDX-License-Identifier: MIT
using Mono.Cecil;
using SensorSim.Architecture.Tests.Checks;

namespace SensorSim.Architecture.Tests;

/// <summary>The rules of the rooms, checked on the compiled code of each.</summary>
[TestFixture]
public sealed class RoomRuleTests
{
    /// <summary>Methods of the integer rooms that run once a sample; whatever they call is followed.</summary>
    private static readonly string[] PerSample = ["Push", "Process", "Step", "Next", "Take"];

    /// <summary>Methods of the integer rooms that run once a beat, a reading or a block of half a second, and may divide.</summary>
    /// <remarks>Divided is the quotient that has shifts and subtractions beside it, never once a sample; Give and GiveRhythm turn ticks into samples once an answer; BeginLine draws the line of a bridge once a gap; Estimate makes a pressure once in 5 s.</remarks>
    private static readonly string[] PerEvent = ["Decide", "LookBack", "Learn", "Close", "Give", "GiveRhythm", "BeginLine", "Estimate", "Divided"];

    private static IEnumerable<string> MakingRooms() => Rooms.Making.Intersect(Rooms.Existing());

    private static IEnumerable<string> IntegerRooms() => Rooms.Integer.Intersect(Rooms.Existing());

    private static IEnumerable<string> AllRooms() => Rooms.Existing();

    [TestCaseSource(nameof(MakingRooms))]
    public void MakingRoom_CompiledCode_IsPortableToTheBit(string project)
        => ExpectNone(Portability.Findings(Types(project), Rooms.TextNamespaces));

    [TestCaseSource(nameof(IntegerRooms))]
    public void IntegerRoom_CompiledCode_HasNoFloatingPoint(string project) => ExpectNone(FloatingPoint.Findings(Types(project)));

    [TestCaseSource(nameof(IntegerRooms))]
    public void IntegerRoom_Lanes_AreExact(string project) => ExpectNone(IntegerLanes.Findings(Types(project)));

    [Test]
    public void IntegerRooms_SamplePath_NeitherAllocatesThrowsNorDivides()
        => ExpectNone(SamplePath.Findings(IntegerRooms().SelectMany(Types).ToArray(), PerSample, PerEvent));

    [TestCaseSource(nameof(IntegerRooms))]
    public void IntegerRoom_PerSampleMethods_AreThere(string project)
    {
        MethodDefinition[] instanceMethods = Types(project).SelectMany(type => type.Methods)
            .Where(method => method is { IsPublic: true, IsStatic: false, IsConstructor: false })
            .ToArray();
        bool isFound = instanceMethods.Length == 0 || instanceMethods.Any(method => PerSample.Contains(method.Name));

        Assert.That(isFound, Is.True, "No method has a name of PerSample, so the sample path is not checked: add what this room calls it.");
    }

    [TestCaseSource(nameof(AllRooms))]
    public void Room_InterpolatedNumbers_AreInvariant(string project) => ExpectNone(CultureText.Findings(Types(project)));

    [TestCaseSource(nameof(AllRooms))]
    public void Room_PublicClasses_AreSealedStaticOrAbstract(string project)
        => ExpectNone(Types(project)
            .Where(type => (type.IsPublic || type.IsNestedPublic) && type is { IsClass: true, IsValueType: false, IsSealed: false, IsAbstract: false })
            .Select(type => $"{type.FullName}: say sealed, or abstract if it is made to be inherited"));

    private static TypeDefinition[] Types(string project) => CompiledCode.AllTypes(CompiledCode.Room(project)).ToArray();

    private static void ExpectNone(IEnumerable<string> findings)
    {
        string[] all = findings.Distinct(StringComparer.Ordinal).ToArray();
        if (all.Length > 0)
        {
            Assert.Fail($"{all.Length} findings:\n{string.Join('\n', all)}");
        }
    }
}
