// SPDX-License-Identifier: MIT
using System.Reflection;
using SensorSim.Signals.Detectors;

namespace SensorSim.Detectors.Assemblies;

/// <summary>Finds the class of a detector in an assembly.</summary>
internal static class DetectorClasses
{
    private static readonly Version s_contract = typeof(IDetector).Assembly.GetName().Version!;

    /// <summary>The class to use.</summary>
    /// <param name="assembly">The assembly.</param>
    /// <param name="file">What sentences call it.</param>
    /// <param name="wanted">Full name; empty: the only one there is.</param>
    /// <exception cref="NotSupportedException">There is no such class, or it cannot be chosen; the message says what there is.</exception>
    public static Type Find(Assembly assembly, string file, string wanted)
    {
        CheckContract(assembly, file);
        Type[] all;
        try
        {
            all = assembly.GetTypes();
        }
        catch (ReflectionTypeLoadException e)
        {
            string why = e.LoaderExceptions.FirstOrDefault(x => x is not null)?.Message ?? e.Message;
            throw new NotSupportedException($"{file}: its classes cannot be loaded: {why.ReplaceLineEndings(" ")}", e);
        }

        Type[] detectors =
        [
            .. all.Where(t => t is { IsClass: true, IsAbstract: false, ContainsGenericParameters: false } && typeof(IDetector).IsAssignableFrom(t))
                .OrderBy(t => t.FullName, StringComparer.Ordinal),
        ];
        string there = detectors.Length == 0
            ? "no class in it implements IDetector"
            : $"it has {string.Join(", ", detectors.Select(t => t.FullName))}";
        if (wanted.Length > 0)
        {
            return detectors.FirstOrDefault(t => t.FullName == wanted)
                ?? throw new NotSupportedException($"{file}: there is no detector class {wanted}; {there}");
        }

        return detectors.Length switch
        {
            1 => detectors[0],
            0 => throw new NotSupportedException($"{file}: {there} (SensorSim.Signals.Detectors.IDetector); a detector is a class that does"),
            _ => throw new NotSupportedException($"{file}: there are several detector classes; name one: {there}"),
        };
    }

    // Before 1.0 a new second number may change the contract.
    private static void CheckContract(Assembly assembly, string file)
    {
        AssemblyName? built = assembly.GetReferencedAssemblies().FirstOrDefault(a => a.Name == typeof(IDetector).Assembly.GetName().Name);
        if (built?.Version is { } version && (version.Major, version.Minor) != (s_contract.Major, s_contract.Minor))
        {
            throw new NotSupportedException(
                $"{file}: is built against SensorSim.Signals {version.ToString(2)}, this program has {s_contract.ToString(2)}; build it again with the SensorSim.Signals.dll of this program");
        }
    }
}
