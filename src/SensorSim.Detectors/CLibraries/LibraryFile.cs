// SPDX-License-Identifier: MIT
using System.Buffers.Binary;
using System.Runtime.InteropServices;
using SensorSim.Detectors.Choices;

namespace SensorSim.Detectors.CLibraries;

/// <summary>Says in one sentence why a file cannot be a shared library of this computer, before the system says it in many.</summary>
internal static class LibraryFile
{
    private const int ElfHead = 20;
    private const ushort ElfShared = 3;

    /// <summary>Refuses what cannot be loaded.</summary>
    /// <param name="path">Path of the file.</param>
    /// <exception cref="NotSupportedException">The file cannot be loaded; the message says why.</exception>
    public static void Check(string path)
    {
        DetectorFiles.MustExist(path);
        if (DetectorFiles.IsAssembly(path))
        {
            throw new NotSupportedException($"{path}: is a .NET assembly, not a C library; its adapter is assembly");
        }

        Span<byte> head = stackalloc byte[ElfHead];
        using FileStream file = File.OpenRead(path);
        int read = file.ReadAtLeast(head, ElfHead, throwOnEndOfStream: false);
        string? refusal = Refusal(head[..read], RuntimeInformation.ProcessArchitecture, OperatingSystem.IsWindows(), OperatingSystem.IsMacOS());
        if (refusal is not null)
        {
            throw new NotSupportedException($"{path}: {refusal}");
        }
    }

    /// <summary>Why the first bytes of a file do not fit; null when they do.</summary>
    /// <param name="head">The first 20 bytes, or fewer of a shorter file.</param>
    /// <param name="here">Architecture of this process.</param>
    /// <param name="isWindows">Whether this is Windows.</param>
    /// <param name="isMac">Whether this is macOS.</param>
    public static string? Refusal(ReadOnlySpan<byte> head, Architecture here, bool isWindows, bool isMac)
    {
        bool isElf = head.Length >= ElfHead && head[..4].SequenceEqual("\u007fELF"u8);
        bool isPe = head.Length >= 2 && head[0] == 'M' && head[1] == 'Z';
        bool isMach = head.Length >= 4 && BinaryPrimitives.ReadUInt32BigEndian(head) is 0xCFFAEDFE or 0xCAFEBABE or 0xCEFAEDFE;
        string wanted = isWindows ? "a Windows library (.dll)" : isMac ? "a macOS library (.dylib)" : "a Linux library (.so)";
        if (!isElf && !isPe && !isMach)
        {
            return $"is not a shared library; this computer needs {wanted}";
        }

        if (isPe != isWindows || isMach != isMac)
        {
            return $"is a {(isPe ? "Windows" : isMach ? "macOS" : "Linux")} file; this computer needs {wanted}";
        }

        return isElf ? ElfRefusal(head, here) : null;
    }

    private static string? ElfRefusal(ReadOnlySpan<byte> head, Architecture here)
    {
        // Numbers of e_machine and e_type: System V ABI, generic part, ELF header.
        bool isLittle = head[5] == 1;
        ushort machine = isLittle ? BinaryPrimitives.ReadUInt16LittleEndian(head[18..]) : BinaryPrimitives.ReadUInt16BigEndian(head[18..]);
        ushort type = isLittle ? BinaryPrimitives.ReadUInt16LittleEndian(head[16..]) : BinaryPrimitives.ReadUInt16BigEndian(head[16..]);
        ushort own = here switch
        {
            Architecture.X64 => 62,
            Architecture.X86 => 3,
            Architecture.Arm64 => 183,
            Architecture.Arm => 40,
            _ => machine,
        };
        if (machine != own)
        {
            return $"is built for {MachineName(machine)}; this computer needs {MachineName(own)}";
        }

        return type == ElfShared ? null : "is a program or an object file, not a shared library; link it with -shared";
    }

    private static string MachineName(ushort machine) => machine switch
    {
        3 => "x86 (32 bit)",
        40 => "arm (32 bit)",
        62 => "x86-64",
        183 => "arm64",
        243 => "RISC-V",
        _ => $"another processor (number {machine})",
    };
}
