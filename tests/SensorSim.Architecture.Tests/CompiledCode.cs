// SPDX-License-Identifier: MIT
using Mono.Cecil;

namespace SensorSim.Architecture.Tests;

/// <summary>The compiled assemblies of the rooms, read without loading them.</summary>
internal static class CompiledCode
{
    private static readonly string FrameworkFolder = Path.GetDirectoryName(typeof(object).Assembly.Location)!;

    /// <summary>The compiled assembly of a room; the build copies it beside the tests.</summary>
    public static ModuleDefinition Room(string project)
    {
        string file = Path.Combine(AppContext.BaseDirectory, Rooms.AssemblyName(project) + ".dll");
        Assert.That(file, Does.Exist, $"Add a ProjectReference to {project} to SensorSim.Architecture.Tests.csproj.");
        return Read(file);
    }

    /// <summary>The assembly of these tests, for the tests of the checks themselves.</summary>
    public static ModuleDefinition OwnTests() => Read(typeof(CompiledCode).Assembly.Location);

    /// <summary>Whether an assembly comes with .NET itself.</summary>
    public static bool IsFramework(string assembly) => File.Exists(Path.Combine(FrameworkFolder, assembly + ".dll"));

    /// <summary>All types of a module, nested and compiler-made ones included.</summary>
    public static IEnumerable<TypeDefinition> AllTypes(ModuleDefinition module) => module.GetTypes();

    private static ModuleDefinition Read(string file)
    {
        var resolver = new DefaultAssemblyResolver();
        resolver.AddSearchDirectory(AppContext.BaseDirectory);
        resolver.AddSearchDirectory(FrameworkFolder);
        return ModuleDefinition.ReadModule(file, new ReaderParameters { AssemblyResolver = resolver });
    }
}
