// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using System.Text;
using SensorSim.Detectors.Choices;
using SensorSim.Signals.Keys;

namespace SensorSim.Detectors.CLibraries;

/// <summary>A loaded C library: its functions, name and constants. Stays loaded until the process ends.</summary>
internal sealed unsafe class CLibrary
{
    /// <summary>Number of the contract in sensorsim_detector.h.</summary>
    public const uint Abi = 1;

    private const string Export = "sensorsim_detector_";
    private const int MostConstants = 1000;

    /// <summary>Loads a library.</summary>
    /// <param name="path">Path of the file.</param>
    /// <exception cref="NotSupportedException">It cannot be loaded or is none of ours; the message says why.</exception>
    public CLibrary(string path)
    {
        LibraryFile.Check(path);
        IntPtr handle = Load(path);
        IntPtr abi = Find(handle, path, "abi");
        uint has = ((delegate* unmanaged[Cdecl]<uint>)abi)();
        if (has != Abi)
        {
            throw new NotSupportedException(
                $"{path}: speaks version {has} of the detector contract, this program speaks version {Abi}; build it with the sensorsim_detector.h of this program");
        }

        var name = (delegate* unmanaged[Cdecl]<IntPtr>)Find(handle, path, "name");
        var constantCount = (delegate* unmanaged[Cdecl]<int>)Find(handle, path, "constant_count");
        var constant = (delegate* unmanaged[Cdecl]<int, CConstant*, int>)Find(handle, path, "constant");
        Open = (delegate* unmanaged[Cdecl]<CFormat*, void**, byte*, int, int>)Find(handle, path, "open");
        Set = (delegate* unmanaged[Cdecl]<void*, byte*, double, int>)Find(handle, path, "set");
        Process = (delegate* unmanaged[Cdecl]<void*, CBlock*, CAnswers*, int>)Find(handle, path, "process");
        Flush = (delegate* unmanaged[Cdecl]<void*, CAnswers*, int>)Find(handle, path, "flush");
        Close = (delegate* unmanaged[Cdecl]<void*, void>)Find(handle, path, "close");
        Name = Text(name()) is { Length: > 0 } given ? given : throw new NotSupportedException($"{path}: sensorsim_detector_name gives no name");
        int count = constantCount();
        if (count is < 0 or > MostConstants)
        {
            throw new NotSupportedException($"{path}: sensorsim_detector_constant_count gives {count}; 0 to {MostConstants} are possible");
        }

        var constants = new NumberKey[count];
        for (int i = 0; i < count; i++)
        {
            CConstant told = new() { Size = (uint)sizeof(CConstant) };
            if (constant(i, &told) != 0)
            {
                throw new NotSupportedException($"{path}: sensorsim_detector_constant does not tell constant {i} of {count}");
            }

            constants[i] = new NumberKey
            {
                Name = ConstantValues.Prefix + Text(told.Name),
                Unit = Text(told.Unit),
                Meaning = Text(told.Meaning),
                Source = Name,
                Minimum = told.Minimum,
                Maximum = told.Maximum,
                Default = told.DefaultValue,
                IsWhole = told.IsWhole != 0,
            };
        }

        ConstantValues.CheckList(path, constants);
        Constants = constants;
    }

    /// <summary>Name and version.</summary>
    public string Name { get; }

    /// <summary>Constants, their names with the prefix.</summary>
    public IReadOnlyList<NumberKey> Constants { get; }

    public delegate* unmanaged[Cdecl]<CFormat*, void**, byte*, int, int> Open { get; }

    public delegate* unmanaged[Cdecl]<void*, byte*, double, int> Set { get; }

    public delegate* unmanaged[Cdecl]<void*, CBlock*, CAnswers*, int> Process { get; }

    public delegate* unmanaged[Cdecl]<void*, CAnswers*, int> Flush { get; }

    public delegate* unmanaged[Cdecl]<void*, void> Close { get; }

    /// <summary>A text of the library; broken UTF-8 and control characters are replaced.</summary>
    public static string Text(IntPtr text)
    {
        if (text == IntPtr.Zero)
        {
            return "";
        }

        return Clean(MemoryMarshal.CreateReadOnlySpanFromNullTerminated((byte*)text));
    }

    /// <summary>Bytes as text of one line.</summary>
    public static string Clean(ReadOnlySpan<byte> bytes) =>
        Choices.OneLine.Of(Encoding.UTF8.GetString(bytes));

    private static IntPtr Load(string path)
    {
        string full = Path.GetFullPath(path);
        try
        {
            return NativeLibrary.Load(full);
        }
        catch (Exception e) when (e is DllNotFoundException or BadImageFormatException)
        {
            throw new NotSupportedException($"{path}: cannot be loaded: {Reason(e.Message, full)}", e);
        }
    }

    // The runtime's message has a line for each place that it looked at; the one about the file itself says why.
    private static string Reason(string message, string full)
    {
        string[] lines = message.Split('\n', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        string line = lines.Skip(1).FirstOrDefault(l => l.StartsWith(full + ": ", StringComparison.Ordinal))
            ?? lines.Skip(1).FirstOrDefault(l => l.Contains(": ", StringComparison.Ordinal))
            ?? "a library that it needs is missing, or it is damaged";
        return line.StartsWith(full + ": ", StringComparison.Ordinal) ? line[(full.Length + 2)..] : line;
    }

    private static IntPtr Find(IntPtr handle, string path, string function) =>
        NativeLibrary.TryGetExport(handle, Export + function, out IntPtr address)
            ? address
            : throw new NotSupportedException(
                $"{path}: is no detector: it does not export {Export}{function}; see sensorsim_detector.h for what a library exports");
}
