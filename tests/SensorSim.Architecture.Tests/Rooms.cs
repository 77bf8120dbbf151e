// SPDX-License-Identifier: MIT
namespace SensorSim.Architecture.Tests;

/// <summary>The rooms of src and the arrows between them: the one place where the tests say what may use what.</summary>
/// <remarks>Add a room here, and a ProjectReference to this test project, in the commit that creates it.</remarks>
internal static class Rooms
{
    private const string Signals = "SensorSim.Signals";
    private const string Body = "SensorSim.Body";
    private const string Sensing = "SensorSim.Sensing";
    private const string Scenarios = "SensorSim.Scenarios";
    private const string FixedPoint = "SensorSim.FixedPoint";
    private const string Detection = "SensorSim.Detection";
    private const string Detectors = "SensorSim.Detectors";
    private const string DetectorHost = "SensorSim.DetectorHost";
    private const string Scoring = "SensorSim.Scoring";
    private const string Studies = "SensorSim.Studies";
    private const string Reports = "SensorSim.Reports";
    private const string Files = "SensorSim.Files";
    private const string Links = "SensorSim.Links";
    private const string Cli = "SensorSim.Cli";
    private const string TwinWriter = "SensorSim.TwinWriter";
    private const string Testing = "SensorSim.Testing";
    private const string Workbench = "SensorSim.Workbench";

    /// <summary>Project name to the projects that it may reference, directly, in code or in its project file.</summary>
    public static readonly IReadOnlyDictionary<string, string[]> Arrows = new Dictionary<string, string[]>(StringComparer.Ordinal)
    {
        [Signals] = [],
        [Body] = [Signals],
        [Sensing] = [Signals, Body],
        [Scenarios] = [Signals, Body, Sensing, Files],
        [FixedPoint] = [],
        [Detection] = [FixedPoint],
        [Detectors] = [Signals, FixedPoint, Detection, Links],
        [DetectorHost] = [Signals, Detectors],
        [Scoring] = [Signals],
        [Studies] = [Signals, Scenarios, Scoring, Detectors, Files],
        [Reports] = [Signals, Scenarios, Scoring, Detectors, Studies],
        [Files] = [Signals],
        [Links] = [Signals],
        [Cli] =
        [
            Signals, Body, Sensing, Scenarios, FixedPoint, Detection, Detectors, DetectorHost, Scoring, Studies, Reports, Files, Links, Testing, Workbench,
        ],
        [TwinWriter] = [],
        [Testing] = [Signals, Scenarios, Scoring, Detectors, DetectorHost, Studies],
        [Workbench] =
        [
            Signals, Body, Sensing, Scenarios, FixedPoint, Detection, Detectors, Scoring, Studies, Reports, Files, Links, Testing,
        ],
    };

    /// <summary>Packages of the product and the only rooms that may use each: one room per job keeps the rest replaceable.</summary>
    public static readonly IReadOnlyDictionary<string, string[]> PackageOwners = new Dictionary<string, string[]>(StringComparer.Ordinal)
    {
        ["MathNet.Numerics"] = [Scoring, Studies],
        ["Microsoft.CodeAnalysis"] = [TwinWriter],
        ["Microsoft.CodeAnalysis.CSharp"] = [TwinWriter],
        ["NUnit"] = [Testing],
        ["nunit.framework"] = [Testing],
        ["Parquet.Net"] = [Files],
        ["Parquet"] = [Files],
        ["ScottPlot"] = [Reports],
        ["SkiaSharp"] = [Reports],
        ["SkiaSharp.NativeAssets.Linux.NoDependencies"] = [Reports],
        ["Spectre.Console"] = [Cli],
        ["Spectre.Console.Ansi"] = [Cli],
        ["System.CommandLine"] = [Cli],
        ["System.IO.Ports"] = [Links],
        ["Tomlyn"] = [Scenarios],
    };

    /// <summary>Parts of the framework that only some rooms may reference.</summary>
    public static readonly IReadOnlyDictionary<string, string[]> FrameworkOwners = new Dictionary<string, string[]>(StringComparer.Ordinal)
    {
        ["System.Console"] = [Cli, TwinWriter],
        ["System.Net.Sockets"] = [Links],
    };

    /// <summary>Rooms whose output must be the same to the bit on every machine.</summary>
    public static readonly string[] Making = [Signals, Body, Sensing, Scenarios];

    /// <summary>Rooms that compute with integers only.</summary>
    public static readonly string[] Integer = [FixedPoint, Detection];

    /// <summary>Namespaces of the making rooms that read and write numbers as text.</summary>
    public static readonly string[] TextNamespaces = ["SensorSim.Scenarios", "SensorSim.Signals.Keys"];

    /// <summary>Name of the assembly that a project compiles to.</summary>
    public static string AssemblyName(string project) => project == Cli ? "sensorsim" : project;

    /// <summary>Name of the project that an assembly comes from.</summary>
    public static string ProjectName(string assembly) => assembly == "sensorsim" ? Cli : assembly;

    /// <summary>Names of the projects that exist under src now.</summary>
    public static IEnumerable<string> Existing()
        => SourceTree.ProjectFiles("src").Select(file => Path.GetFileNameWithoutExtension(file)).Order(StringComparer.Ordinal);
}
