// SPDX-License-Identifier: MIT
using System.Reflection;
using SensorSim.Detectors.Choices;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Identity;
using SensorSim.Signals.Keys;

namespace SensorSim.Detectors.Assemblies;

/// <summary>Makes detectors of a class in a user's .NET assembly. They run in this process: a hanging one hangs it.</summary>
public sealed class AssemblyFactory : IDetectorFactory
{
    private readonly string _file;
    private readonly Type _class;

    /// <summary>Loads an assembly and finds the class.</summary>
    /// <param name="path">Path of the assembly.</param>
    /// <param name="className">Full name of the class; empty: the only one there is.</param>
    /// <exception cref="NotSupportedException">It cannot be loaded or has no such class; the message says what would be right.</exception>
    public AssemblyFactory(string path, string className = "")
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        ArgumentNullException.ThrowIfNull(className);
        DetectorFiles.MustExist(path);
        if (!DetectorFiles.IsAssembly(path))
        {
            throw new NotSupportedException($"{path}: is not a .NET assembly; build the detector with dotnet build and name the .dll");
        }

        _file = path;
        GuestCode.Enter(path);
        _class = Load(path, className);
        IDetector inner = Make();
        using var first = new AssemblyDetector(inner, path, new Dictionary<string, double>());
        (string name, Constants) = Describe(inner);
        ConstantValues.CheckList(path, Constants);
        Identity = $"{name} sha256:{Sha256Sum.OfFile(path)}";
    }

    /// <inheritdoc/>
    public string Identity { get; }

    /// <inheritdoc/>
    public IReadOnlyList<NumberKey> Constants { get; }

    /// <inheritdoc/>
    public IDetector Create(IReadOnlyDictionary<string, double> constants)
    {
        ArgumentNullException.ThrowIfNull(constants);
        ConstantValues.Check(_file, Constants, constants);
        return new AssemblyDetector(Make(), _file, constants);
    }

    /// <summary>Nothing to let go of: what is loaded stays until the process ends.</summary>
    public void Dispose()
    {
    }

    private static Type Load(string path, string className)
    {
        try
        {
            string full = Path.GetFullPath(path);
            return DetectorClasses.Find(new DetectorLoadContext(full).LoadFromAssemblyPath(full), path, className);
        }
        catch (Exception e) when (e is BadImageFormatException or FileLoadException or FileNotFoundException or TypeLoadException or InvalidOperationException)
        {
            throw new NotSupportedException($"{path}: cannot be loaded: {OneLine.Of(e.Message)}", e);
        }
    }

    private (string Name, IReadOnlyList<NumberKey> Constants) Describe(IDetector detector)
    {
        try
        {
            IReadOnlyList<NumberKey> constants = detector is IDetectorConstants having ? [.. having.Constants] : [];
            return OneLine.Of(detector.Name) is { Length: > 0 } name
                ? (name, constants)
                : throw new NotSupportedException($"{_file}: {_class.FullName} gives no name");
        }
        catch (Exception e) when (e is not (NotSupportedException or OutOfMemoryException))
        {
            throw new NotSupportedException(
                $"{_file}: {_class.FullName} threw {e.GetType().Name} when asked for its name and constants: {OneLine.Of(e.Message)}", e);
        }
    }

    private IDetector Make()
    {
        if (_class.GetConstructor(Type.EmptyTypes) is not ConstructorInfo constructor)
        {
            throw new NotSupportedException($"{_file}: {_class.FullName} needs a public constructor without parameters");
        }

        try
        {
            return (IDetector)constructor.Invoke(null);
        }
        catch (TargetInvocationException e) when (e.InnerException is { } inner)
        {
            throw new NotSupportedException(
                $"{_file}: the constructor of {_class.FullName} threw {inner.GetType().Name}: {OneLine.Of(inner.Message)}", inner);
        }
    }
}
