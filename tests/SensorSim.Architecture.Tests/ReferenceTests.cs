// SPDX-License-Identifier: MIT
using System.Xml.Linq;
using Mono.Cecil;

namespace SensorSim.Architecture.Tests;

/// <summary>The arrows between the rooms, read from the compiled assemblies and from the project files.</summary>
/// <remarks>Both, because an unused reference does not show in an assembly, and a project file does not show what a package drags in.</remarks>
[TestFixture]
public sealed class ReferenceTests
{
    private static IEnumerable<string> Projects() => Rooms.Existing();

    [Test]
    public void Projects_UnderSrc_AreAllInTheTable()
        => Assert.That(Rooms.Existing().Where(project => !Rooms.Arrows.ContainsKey(project)), Is.Empty, "Add the room to Rooms.Arrows.");

    [Test]
    public void Projects_UnderSrc_AreFound() => Assert.That(Rooms.Existing(), Does.Contain("SensorSim.Signals"));

    [TestCaseSource(nameof(Projects))]
    public void CompiledReferences_OfARoom_FollowTheArrows(string project)
    {
        string[] strangers = CompiledCode.Room(project).AssemblyReferences
            .Select(reference => Rooms.ProjectName(reference.Name))
            .Where(name => name.StartsWith("SensorSim.", StringComparison.Ordinal))
            .Except(Rooms.Arrows[project], StringComparer.Ordinal)
            .ToArray();

        Assert.That(strangers, Is.Empty, $"{project} may use only: {string.Join(", ", Rooms.Arrows[project])}");
    }

    [TestCaseSource(nameof(Projects))]
    public void ProjectReferences_OfARoom_FollowTheArrows(string project)
    {
        string[] strangers = Includes(project, "ProjectReference")
            .Select(path => Path.GetFileNameWithoutExtension(path.Replace('\\', '/')))
            .Except(Rooms.Arrows[project], StringComparer.Ordinal)
            .ToArray();

        Assert.That(strangers, Is.Empty, $"{project} may use only: {string.Join(", ", Rooms.Arrows[project])}");
    }

    [TestCaseSource(nameof(Projects))]
    public void CompiledReferences_ToPackages_AreThoseOfTheRoom(string project)
    {
        string[] strangers = CompiledCode.Room(project).AssemblyReferences
            .Select(reference => reference.Name)
            .Where(name => !name.StartsWith("SensorSim.", StringComparison.Ordinal) && !CompiledCode.IsFramework(name))
            .Where(name => !IsOwner(Rooms.PackageOwners, name, project))
            .ToArray();

        Assert.That(strangers, Is.Empty, "Rooms.PackageOwners says which room may use which package.");
    }

    [TestCaseSource(nameof(Projects))]
    public void PackageReferences_OfARoom_AreItsOwn(string project)
        => Assert.That(
            Includes(project, "PackageReference").Where(name => !IsOwner(Rooms.PackageOwners, name, project)),
            Is.Empty,
            "Rooms.PackageOwners says which room may use which package.");

    [TestCaseSource(nameof(Projects))]
    public void CompiledReferences_ToConsoleAndSockets_OnlyWhereAllowed(string project)
        => Assert.That(
            CompiledCode.Room(project).AssemblyReferences.Select(reference => reference.Name)
                .Where(name => Rooms.FrameworkOwners.ContainsKey(name) && !IsOwner(Rooms.FrameworkOwners, name, project)),
            Is.Empty,
            "Only the command touches the console (others are given a writer), only Links opens ports and sockets.");

    [TestCase("SensorSim.Cli", "System.IO.Ports", ExpectedResult = false)]
    [TestCase("SensorSim.Links", "System.IO.Ports", ExpectedResult = true)]
    [TestCase("SensorSim.Studies", "ScottPlot", ExpectedResult = false)]
    [TestCase("SensorSim.Files", "NotInTheTable", ExpectedResult = false)]
    public bool PackageOwners_RoomAndPackage_AsTheDesignSays(string project, string package) => IsOwner(Rooms.PackageOwners, package, project);

    private static bool IsOwner(IReadOnlyDictionary<string, string[]> owners, string name, string project)
        => owners.TryGetValue(name, out string[]? rooms) && rooms.Contains(project, StringComparer.Ordinal);

    private static IEnumerable<string> Includes(string project, string element)
        => XDocument.Load(Path.Combine(SourceTree.Root, "src", project, project + ".csproj"))
            .Descendants(element)
            .Select(reference => (string?)reference.Attribute("Include"))
            .OfType<string>();
}
