// SPDX-License-Identifier: MIT
using System.Reflection.Metadata;
using System.Reflection.PortableExecutable;

namespace SensorSim.Detectors.Choices;

/// <summary>Files that a detector comes from.</summary>
public static class DetectorFiles
{
    /// <summary>Which adapter a file needs: a .NET assembly or a shared library.</summary>
    /// <param name="path">Path of the file.</param>
    /// <exception cref="NotSupportedException">There is no such file.</exception>
    public static DetectorAdapter AdapterOf(string path)
    {
        MustExist(path);
        return IsAssembly(path) ? DetectorAdapter.Assembly : DetectorAdapter.CLibrary;
    }

    /// <summary>Whether a file is a .NET assembly.</summary>
    internal static bool IsAssembly(string path)
    {
        try
        {
            using FileStream file = File.OpenRead(path);
            using var reader = new PEReader(file);
            return reader.HasMetadata && reader.GetMetadataReader().IsAssembly;
        }
        catch (BadImageFormatException)
        {
            return false;
        }
    }

    /// <summary>Refuses a path behind which there is no file.</summary>
    internal static void MustExist(string path)
    {
        if (!File.Exists(path))
        {
            throw new NotSupportedException(
                Directory.Exists(path) ? $"{path}: is a folder; name the file of the detector in it" : $"{path}: there is no such file");
        }
    }
}
