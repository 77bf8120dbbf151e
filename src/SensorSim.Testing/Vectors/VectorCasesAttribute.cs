// SPDX-License-Identifier: MIT
using NUnit.Framework;
using NUnit.Framework.Interfaces;
using NUnit.Framework.Internal;
using NUnit.Framework.Internal.Builders;

namespace SensorSim.Testing;

/// <summary>Makes a test of each case of a set of known answers; the method takes one <see cref="VectorCase"/>.</summary>
/// <remarks>
/// Each test has the categories <c>level_…</c>, <c>disturbance_…</c> and <c>requirement_…</c>, so that a run can choose. A set that is damaged or cannot be found makes
/// a test that fails and says so.
/// </remarks>
[AttributeUsage(AttributeTargets.Method, AllowMultiple = true)]
public sealed class VectorCasesAttribute : NUnitAttribute, ITestBuilder, IImplyFixture
{
    private readonly NUnitTestCaseBuilder _builder = new();

    /// <summary>Creates the source.</summary>
    /// <param name="folder">Folder of the set; see <see cref="TestFile"/>.</param>
    public VectorCasesAttribute(string folder) => Folder = folder;

    /// <summary>Folder of the set.</summary>
    public string Folder { get; }

    /// <summary>Whether each requirement of a case is a test of its own.</summary>
    public bool IsRequirementATest { get; init; }

    /// <inheritdoc/>
    public IEnumerable<TestMethod> BuildFrom(IMethodInfo method, Test? suite) => Cases().Select(c => _builder.BuildTestMethod(method, suite, c));

    private IEnumerable<TestCaseParameters> Cases()
    {
        try
        {
            IEnumerable<VectorCase> cases = Given.VectorSet(Folder);
            return [.. (IsRequirementATest ? cases.SelectMany(c => c.EachRequirement()) : cases).Select(Test)];
        }
        catch (Exception e) when (e is FormatException or ArgumentException or IOException)
        {
            return [new TestCaseParameters(e)];
        }
    }

    private static TestCaseData Test(VectorCase vectorCase)
    {
        TestCaseData data = new TestCaseData(vectorCase).SetArgDisplayNames(vectorCase.ToString());
        data.SetCategory($"level_{Word(Scenarios.VectorPlans.CaseLevels.Text(vectorCase.Planned.Level))}");
        data.SetCategory($"disturbance_{Word(vectorCase.Planned.Disturbance)}");
        foreach (string id in vectorCase.Requirements.Select(r => r.Id))
        {
            data.SetCategory($"requirement_{Word(id)}");
        }

        return data;
    }

    // NUnit's filters give some characters a meaning.
    private static string Word(string text) => string.Concat(text.Select(c => char.IsAsciiLetterOrDigit(c) ? c : '_'));
}
