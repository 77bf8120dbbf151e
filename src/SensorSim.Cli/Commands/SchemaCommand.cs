// SPDX-License-Identifier: MIT
using System.CommandLine;
using SensorSim.Cli.Options;
using SensorSim.Cli.Output;
using SensorSim.Files.Output;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Schemas;

namespace SensorSim.Cli.Commands;

/// <summary><c>schema</c>: the JSON Schema of a kind of file, for editors and other programs.</summary>
internal static class SchemaCommand
{
    public static Command Create(Terminal terminal)
    {
        var name = new Argument<string?>("KIND")
        {
            Description = $"Kind of file: {string.Join(", ", FileSchemas.All.Select(s => s.Name))}; without it the kinds are listed",
            Arity = ArgumentArity.ZeroOrOne,
        };
        Option<string?> outFolder = CommonOptions.Out("Folder for the schema as a file, KIND.schema.json; without KIND for all of them");
        var command = new Command("schema", "Print the JSON Schema of a kind of file, which editors check and complete a TOML file by.") { name, outFolder };
        command.SetAction(parsed => Run(terminal, parsed.GetValue(name), parsed.GetValue(outFolder)));
        return command;
    }

    private static int Run(Terminal terminal, string? name, string? outPath)
    {
        FileSchema? one = name is null ? null : Find(name);
        if (outPath is not null)
        {
            Write(terminal, one is null ? FileSchemas.All : [one], outPath);
        }
        else if (one is not null)
        {
            one.Write(terminal.OutStream);
        }
        else
        {
            foreach (FileSchema each in FileSchemas.All)
            {
                terminal.Out.WriteLine($"{each.Name,-12} {each.Meaning}");
            }

            terminal.Out.WriteLine();
            terminal.Out.WriteLine("One schema: sensorsim schema KIND. All as files: sensorsim schema --out DIR");
        }

        return ExitCodes.Done;
    }

    private static FileSchema Find(string name) => FileSchemas.All.FirstOrDefault(s => s.Name == name)
        ?? throw new UsageException($"{name} is no kind of file; the nearest is {NearestName.Find(name, FileSchemas.All.Select(s => s.Name))}");

    private static void Write(Terminal terminal, IReadOnlyList<FileSchema> schemas, string outPath)
    {
        using OutputFolder folder = OutputPlace.Open(outPath);
        foreach (FileSchema schema in schemas)
        {
            using Stream file = folder.CreateFile(schema.FileName);
            schema.Write(file);
        }

        folder.Commit();
        foreach (FileSchema schema in schemas)
        {
            terminal.Out.WriteLine(schema.FileName);
        }

        terminal.Say($"files written to {outPath}");
    }
}
