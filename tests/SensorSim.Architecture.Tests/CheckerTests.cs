// SPDX-License-Identifier: MIT
using Mono.Cecil;
using SensorSim.Architecture.Tests.Checks;
using SensorSim.Architecture.Tests.Fixtures;

namespace SensorSim.Architecture.Tests;

/// <summary>The checks themselves, tried on code that breaks the rules on purpose and on code that keeps them.</summary>
[TestFixture]
public sealed class CheckerTests
{
    private static readonly string[] NoText = [];
    private static readonly string[] FixtureText = ["SensorSim.Architecture.Tests.Fixtures"];
    private static readonly string[] NoEvents = [];

    private static IEnumerable<string> OffenderNames()
        => typeof(Offenders).GetMethods().Where(method => method.DeclaringType == typeof(Offenders)).Select(method => method.Name);

    [TestCaseSource(nameof(OffenderNames))]
    public void Portability_Offender_IsFound(string method)
        => Assert.That(
            Portability.Findings(With(typeof(Offenders)), NoText),
            Has.Some.Contains($"::{method}(").Or.Some.Contains($"<{method}>"));

    [TestCase(nameof(Offenders.Sine), "System.Math::Sin")]
    [TestCase(nameof(Offenders.FusedInstruction), "System.Runtime.Intrinsics.X86.Fma::MultiplyAdd")]
    [TestCase(nameof(Offenders.SingleInside), "System.Single")]
    public void Portability_Offender_MessageNamesMethodAndCall(string method, string call)
        => Assert.That(Portability.Findings(With(typeof(Offenders)), NoText), Has.Some.Contains(method).And.Contains(call));

    [TestCase(typeof(SingleHolder), "Value")]
    [TestCase(typeof(NativeOffender), nameof(NativeOffender.NativeSine))]
    [TestCase(typeof(TextOffenders), nameof(TextOffenders.CultureNotSaid))]
    public void Portability_OffendingType_IsFound(Type type, string member)
        => Assert.That(Portability.Findings(With(type), FixtureText), Has.Some.Contains(member));

    [TestCase(typeof(Portable))]
    [TestCase(typeof(PortableRecord))]
    [TestCase(typeof(PortableKey))]
    public void Portability_PortableCode_HasNoFindings(Type type) => Assert.That(Portability.Findings(With(type), NoText), Is.Empty);

    [Test]
    public void Portability_TextCode_AllowedOnlyInTextNamespaces()
    {
        Assert.That(Portability.Findings(With(typeof(PortableText)), FixtureText), Is.Empty);
        Assert.That(Portability.Findings(With(typeof(PortableText)), NoText).Count(), Is.EqualTo(2));
    }

    [TestCase(nameof(Floating.Constant))]
    [TestCase(nameof(Floating.Field))]
    [TestCase(nameof(Floating.Literal))]
    [TestCase(nameof(Floating.Parameter))]
    [TestCase(nameof(Floating.Root))]
    [TestCase(nameof(Floating.Local))]
    [TestCase(nameof(Floating.Lanes))]
    public void FloatingPoint_HiddenDouble_IsFound(string member)
        => Assert.That(FloatingPoint.Findings(With(typeof(Floating))), Has.Some.Contains(member));

    [TestCase(nameof(Offenders.FusedInstruction))]
    [TestCase(nameof(Offenders.LaneSum))]
    [TestCase(nameof(Offenders.WideLanes))]
    public void IntegerLanes_InstructionNotOnTheList_IsFound(string method)
        => Assert.That(IntegerLanes.Findings(With(typeof(Offenders))), Has.Some.Contains(method));

    [Test]
    public void IntegerLanes_ExactInstructions_HaveNoFindings() => Assert.That(IntegerLanes.Findings(With(typeof(Portable))), Is.Empty);

    [Test]
    public void FloatingPoint_IntegerCode_HasNoFindings()
        => Assert.That(FloatingPoint.Findings(With(typeof(GoodSamplePath)).Concat(With(typeof(BadSamplePath)))), Is.Empty);

    [TestCase(nameof(BadSamplePath.PushDividing), "no division")]
    [TestCase(nameof(BadSamplePath.PushThroughHelper), "no division")]
    [TestCase(nameof(BadSamplePath.PushRemainder), "no division")]
    [TestCase(nameof(BadSamplePath.PushWithBeat), "no division")]
    [TestCase(nameof(BadSamplePath.PushAllocating), "no allocation")]
    [TestCase(nameof(BadSamplePath.PushBoxing), "no allocation")]
    [TestCase(nameof(BadSamplePath.PushNewObject), "no allocation")]
    [TestCase(nameof(BadSamplePath.PushTable), "no allocation")]
    [TestCase(nameof(BadSamplePath.PushThrowing), "no exception")]
    [TestCase(nameof(BadSamplePath.PushGuarding), "no exception")]
    [TestCase(nameof(BadSamplePath.PushVirtual), "no call through")]
    [TestCase(nameof(BadSamplePath.PushDelegate), "no call through")]
    public void SamplePath_BrokenRule_IsFound(string method, string why)
        => Assert.That(SamplePath.Findings(With(typeof(BadSamplePath)), [method], NoEvents), Has.Some.Contains(why));

    [Test]
    public void SamplePath_DivisionOnceABeat_IsAllowed()
        => Assert.That(SamplePath.Findings(With(typeof(BadSamplePath)), [nameof(BadSamplePath.PushWithBeat)], ["OnBeat"]), Is.Empty);

    [Test]
    public void SamplePath_CleanCode_HasNoFindings()
        => Assert.That(SamplePath.Findings(With(typeof(GoodSamplePath)), ["Push"], NoEvents), Is.Empty);

    [Test]
    public void CultureText_InterpolatedDouble_IsFound()
        => Assert.That(
            CultureText.Findings(With(typeof(TextOffenders))).ToArray(),
            Has.Length.EqualTo(1).And.Some.Contains(nameof(TextOffenders.InterpolatedByUsersCulture)));

    [Test]
    public void CultureText_InvariantText_HasNoFindings() => Assert.That(CultureText.Findings(With(typeof(Portable))), Is.Empty);

    /// <summary>A type as compiled, with its nested types: lambdas and iterators live there.</summary>
    private static TypeDefinition[] With(Type type)
        => CompiledCode.AllTypes(CompiledCode.OwnTests())
            .Where(found => found.FullName == type.FullName || found.FullName.StartsWith(type.FullName + "/", StringComparison.Ordinal))
            .ToArray();
}
