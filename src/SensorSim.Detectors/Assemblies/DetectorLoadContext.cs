// SPDX-License-Identifier: MIT
using System.Diagnostics;
using System.Reflection;
using System.Runtime.Loader;

namespace SensorSim.Detectors.Assemblies;

/// <summary>Loads a user's assembly and what lies beside it, apart from this program's own; the contract is shared.</summary>
internal sealed class DetectorLoadContext : AssemblyLoadContext
{
    private static readonly string s_contract = typeof(Signals.Detectors.IDetector).Assembly.GetName().Name!;

    private readonly AssemblyDependencyResolver _resolver;

    public DetectorLoadContext(string path)
        : base(path) => _resolver = new AssemblyDependencyResolver(path);

    /// <summary>Whether an exception was thrown by code of a user's assembly.</summary>
    public static bool HasThrown(Exception e) => new StackTrace(e).GetFrames()
        .Any(f => f.GetMethod()?.Module.Assembly is { } assembly && GetLoadContext(assembly) is DetectorLoadContext);

    protected override Assembly? Load(AssemblyName assemblyName)
    {
        // A second copy of the contract beside the user's file would make other types of the same names.
        if (assemblyName.Name == s_contract)
        {
            return typeof(Signals.Detectors.IDetector).Assembly;
        }

        string? path = _resolver.ResolveAssemblyToPath(assemblyName);
        return path is null ? null : LoadFromAssemblyPath(path);
    }

    protected override IntPtr LoadUnmanagedDll(string unmanagedDllName)
    {
        string? path = _resolver.ResolveUnmanagedDllToPath(unmanagedDllName);
        return path is null ? IntPtr.Zero : LoadUnmanagedDllFromPath(path);
    }
}
