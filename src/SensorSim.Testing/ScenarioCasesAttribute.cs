// SPDX-License-Identifier: MIT
using NUnit.Framework;
using NUnit.Framework.Interfaces;
using NUnit.Framework.Internal;
using NUnit.Framework.Internal.Builders;

namespace SensorSim.Testing;

/// <summary>Makes a test of each scenario in files; the method takes one <see cref="GivenScenario"/>.</summary>
/// <remarks>Files that cannot be found, and scenarios with mistakes, make a test that fails and says so.</remarks>
[AttributeUsage(AttributeTargets.Method, AllowMultiple = true)]
public sealed class ScenarioCasesAttribute : NUnitAttribute, ITestBuilder, IImplyFixture
{
    private readonly NUnitTestCaseBuilder _builder = new();

    /// <summary>Creates the source.</summary>
    /// <param name="pattern">Path of a scenario, or of several in one folder with <c>*</c> and <c>?</c> in the last part; see <see cref="TestFile"/>.</param>
    public ScenarioCasesAttribute(string pattern) => Pattern = pattern;

    /// <summary>Path of the scenarios.</summary>
    public string Pattern { get; }

    /// <summary>First seed, when <see cref="SeedCount"/> is given.</summary>
    public ulong FirstSeed { get; init; } = 1;

    /// <summary>Consecutive seeds; 0: the one that the scenario says.</summary>
    public int SeedCount { get; init; }

    /// <summary>Whether each seed is a test of its own.</summary>
    public bool IsSeedATest { get; init; }

    /// <inheritdoc/>
    public IEnumerable<TestMethod> BuildFrom(IMethodInfo method, Test? suite) => Cases().Select(c => _builder.BuildTestMethod(method, suite, c));

    private IEnumerable<TestCaseParameters> Cases()
    {
        IReadOnlyList<string> files;
        try
        {
            files = TestFile.FindAll(Pattern);
        }
        catch (Exception e) when (e is IOException or ArgumentException)
        {
            return [new TestCaseParameters(e)];
        }

        return files.SelectMany(Cases);
    }

    private IEnumerable<TestCaseParameters> Cases(string file)
    {
        try
        {
            GivenScenario given = Given.Scenario(file).Called(Path.GetFileName(file));
            given = SeedCount > 0 ? given.SeedsFrom(FirstSeed, SeedCount) : given;
            return [.. (IsSeedATest ? given.EachSeed() : [given]).Select(g => new TestCaseData(g).SetArgDisplayNames(g.ToString()))];
        }
        catch (Exception e) when (e is FormatException or ArgumentException or IOException)
        {
            return [new TestCaseParameters(e)];
        }
    }
}
