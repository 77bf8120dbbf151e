// SPDX-License-Identifier: MIT
using SensorSim.TwinWriter.Reading;
using SensorSim.TwinWriter.Writing;

namespace SensorSim.TwinWriter;

/// <summary>Writes the C twin of the detection library: <c>dotnet run --project src/SensorSim.TwinWriter [SRC]</c>.</summary>
internal static class Program
{
    private static int Main(string[] arguments)
    {
        string root = arguments.Length > 0 ? arguments[0] : "src";
        try
        {
            IReadOnlyDictionary<string, string> files = LibraryWriter.Write(SourceSet.Read(SourceSet.FilesOf(root)));
            string folder = Path.Combine(root, "firmware", "library");
            int changed = OutputFolder.Write(folder, files);
            Console.WriteLine(FormattableString.Invariant($"{files.Count} files of {folder}, {changed} changed"));
            return 0;
        }
        catch (RefusalException refusal)
        {
            Console.Error.WriteLine(refusal.Message);
            return 1;
        }
    }
}
