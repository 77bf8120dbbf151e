// SPDX-License-Identifier: MIT
using SensorSim.Files.Output;

namespace SensorSim.Studies.Installation;

/// <summary>Whether results can be written where they will be: a folder is made, a file put into it whole, read back, and all is removed.</summary>
internal static class FolderCheck
{
    private static readonly byte[] s_content = [.. Enumerable.Range(0, 100_000).Select(i => (byte)(i * 31))];

    /// <summary>Makes it.</summary>
    /// <param name="beside">Folder in which the trial folder is made; the nearest one above that exists, if it does not.</param>
    /// <param name="shown">How to name that folder.</param>
    public static CheckFinding Run(string beside, string shown)
    {
        string at = Path.GetFullPath(beside);
        while (!Directory.Exists(at))
        {
            at = Path.GetDirectoryName(at) ?? throw new IOException($"{shown}: no such disk");
        }

        string trial = Path.Combine(at, $"selftest-{Path.GetRandomFileName()}");
        try
        {
            using (var folder = new OutputFolder(trial))
            {
                using (Stream file = folder.CreateFile("trial.bin"))
                {
                    file.Write(s_content);
                }

                folder.Commit();
            }

            return File.ReadAllBytes(Path.Combine(trial, "trial.bin")).AsSpan().SequenceEqual(s_content)
                ? CheckFinding.Passed($"{s_content.Length} bytes written into {shown} and read back")
                : CheckFinding.Failed($"what was written into {shown} reads back unlike");
        }
        finally
        {
            if (Directory.Exists(trial))
            {
                Directory.Delete(trial, recursive: true);
            }
        }
    }
}
