// SPDX-License-Identifier: MIT
using System.Text.Json;
using SensorSim.Scenarios.Schemas;

namespace SensorSim.Cli.Tests;

/// <summary><c>schema</c> prints and writes the schemas; what they hold is tested beside them.</summary>
[TestFixture]
public sealed class SchemaTests
{
    private static IEnumerable<string> Kinds => FileSchemas.All.Select(s => s.Name);

    [TestCaseSource(nameof(Kinds))]
    public void Schema_Kind_PrintsOneDocument(string kind)
    {
        Answer answer = Command.Run("schema", kind);

        Assert.That((answer.Code, answer.Error), Is.EqualTo((0, "")));
        using JsonDocument json = JsonDocument.Parse(answer.Out);
        Assert.That(json.RootElement.GetProperty("title").GetString(), Is.EqualTo(kind));
        Assert.That(answer.Out, Does.EndWith("}\n").And.Not.Contain("\r"));
    }

    [Test]
    public void Schema_NoKind_ListsThem()
    {
        Answer answer = Command.Run("schema");

        Assert.That(answer.Code, Is.Zero);
        Assert.That(answer.Out.Split('\n').TakeWhile(l => l.Length > 0).Select(l => l.Split(' ')[0]), Is.EqualTo(Kinds));
    }

    [Test]
    public void Schema_Out_WritesWhatIsPrinted()
    {
        string folder = Path.Combine(TestContext.CurrentContext.WorkDirectory, $"schemas-{Guid.NewGuid():N}");
        try
        {
            Answer answer = Command.Run("schema", "--out", folder);

            Assert.That((answer.Code, answer.Out), Is.EqualTo((0, string.Concat(FileSchemas.All.Select(s => s.FileName + "\n")))));
            Assert.That(
                Directory.GetFiles(folder).Select(Path.GetFileName).Order(StringComparer.Ordinal),
                Is.EqualTo(FileSchemas.All.Select(s => s.FileName).Order(StringComparer.Ordinal)));
            foreach (FileSchema schema in FileSchemas.All)
            {
                Assert.That(File.ReadAllText(Path.Combine(folder, schema.FileName)), Is.EqualTo(Command.Run("schema", schema.Name).Out));
            }
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Test]
    public void Schema_Unknown_NamesTheNearest()
    {
        Answer answer = Command.Run("schema", "scenarios");

        Assert.That(answer.Code, Is.EqualTo(2));
        Assert.That(answer.Error, Does.Contain("scenarios is no kind of file; the nearest is scenario"));
    }
}
