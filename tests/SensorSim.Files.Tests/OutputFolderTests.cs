// SPDX-License-Identifier: MIT
using SensorSim.Files.Output;

namespace SensorSim.Files.Tests;

public class OutputFolderTests
{
    [Test]
    public void Commit_NewFolder_AppearsWholeAndAlone()
    {
        using var folder = new TestFolder();
        using (var output = new OutputFolder(folder["a/b/out"]))
        {
            Put(output, "one.csv", "1");
            Put(output, "plots/two.svg", "2");
            Assert.That(Directory.Exists(folder["a/b/out"]), Is.False);
            output.Commit();
        }

        Assert.That(Content(folder.Root), Is.EqualTo(new[] { "a/b/out/one.csv=1", "a/b/out/plots/two.svg=2" }));
    }

    [Test]
    public void Visible_WhileWritten_LiesBesideTheTargetUnderItsName()
    {
        using var folder = new TestFolder();
        using (var output = OutputFolder.Visible(folder["a/out"]))
        {
            Put(output, "one.csv", "1");
            Assert.That(Content(folder.Root), Is.EqualTo(new[] { "a/out.unfinished/one.csv=1" }));
            output.Commit();
        }

        Assert.That(Content(folder.Root), Is.EqualTo(new[] { "a/out/one.csv=1" }));
    }

    [Test]
    public void Visible_DisposedWithoutCommit_StaysWhenItIsToBeKept()
    {
        using var folder = new TestFolder();
        using (var output = OutputFolder.Visible(folder["gone"]))
        {
            Put(output, "one.csv", "1");
        }

        using (var output = OutputFolder.Visible(folder["kept"]))
        {
            output.KeepsUnfinished = true;
            Put(output, "one.csv", "1");
        }

        Assert.That(Content(folder.Root), Is.EqualTo(new[] { "kept.unfinished/one.csv=1" }));
    }

    [Test]
    public void Visible_OneIsThere_IsRefusedAndNotTouched()
    {
        using var folder = new TestFolder();
        using (var output = OutputFolder.Visible(folder["out"]))
        {
            output.KeepsUnfinished = true;
            Put(output, "one.csv", "1");
        }

        Assert.That(() => OutputFolder.Visible(folder["out"]), Throws.TypeOf<IOException>().With.Message.Contains("out.unfinished: an earlier run was cut off"));
        Assert.That(Content(folder.Root), Is.EqualTo(new[] { "out.unfinished/one.csv=1" }));
    }

    [Test]
    public void Dispose_WithoutCommit_LeavesNothingNotEvenParents()
    {
        using var folder = new TestFolder();
        using (var output = new OutputFolder(folder["a/b/out"]))
        {
            Put(output, "one.csv", "1");
            output.CreateFile("open.csv").WriteByte(1);
        }

        Assert.That(Directory.EnumerateFileSystemEntries(folder.Root), Is.Empty);
    }

    [Test]
    public void Dispose_WithoutCommit_LeavesAnOldFolderAsItWas()
    {
        using var folder = new TestFolder();
        OldFolder(folder);
        using (var output = new OutputFolder(folder["out"]))
        {
            Put(output, "one.csv", "new");
        }

        Assert.That(Content(folder.Root), Is.EqualTo(new[] { "out/mine.txt=mine", "out/one.csv=old" }));
    }

    [Test]
    public void Commit_OldFolder_ReplacesOnlyTheFilesOfThisRun()
    {
        using var folder = new TestFolder();
        OldFolder(folder);
        using (var output = new OutputFolder(folder["out"]))
        {
            Put(output, "one.csv", "new");
            Put(output, "two.csv", "2");
            output.Commit();
        }

        Assert.That(Content(folder.Root), Is.EqualTo(new[] { "out/mine.txt=mine", "out/one.csv=new", "out/two.csv=2" }));
    }

    [Test]
    public void Commit_AFileCannotBePutIntoPlace_TakesBackThoseBefore()
    {
        using var folder = new TestFolder();
        OldFolder(folder);
        Directory.CreateDirectory(folder["out/two.csv"]);
        using (var output = new OutputFolder(folder["out"]))
        {
            Put(output, "one.csv", "new");
            Put(output, "two.csv", "2");
            Assert.That(output.Commit, Throws.InstanceOf<IOException>());
        }

        Assert.That(Content(folder.Root), Is.EqualTo(new[] { "out/mine.txt=mine", "out/one.csv=old" }));
    }

    [Test]
    public void Commit_AWriterStillOpen_IsRefused()
    {
        using var folder = new TestFolder();
        using var output = new OutputFolder(folder["out"]);
        using Stream open = output.CreateFile("one.csv");
        Assert.That(output.Commit, Throws.InvalidOperationException.With.Message.Contains("one.csv is still open"));
    }

    [Test]
    public void PathOf_OutsideTheFolder_IsRefused()
    {
        using var folder = new TestFolder();
        using var output = new OutputFolder(folder["out"]);
        Assert.That(() => output.PathOf("../evil"), Throws.ArgumentException);
    }

    [Test]
    public void Constructor_TargetIsAFile_IsRefused()
    {
        using var folder = new TestFolder();
        string path = folder.Write("out", "");
        Assert.That(() => new OutputFolder(path), Throws.InstanceOf<IOException>().With.Message.Contains("this is a file"));
    }

    private static void OldFolder(TestFolder folder)
    {
        Directory.CreateDirectory(folder["out"]);
        folder.Write("out/one.csv", "old");
        folder.Write("out/mine.txt", "mine");
    }

    private static void Put(OutputFolder output, string name, string text)
    {
        using var writer = new StreamWriter(output.CreateFile(name));
        writer.Write(text);
    }

    private static string[] Content(string root) =>
        [.. Directory.EnumerateFiles(root, "*", SearchOption.AllDirectories)
            .Select(f => $"{Path.GetRelativePath(root, f).Replace('\\', '/')}={File.ReadAllText(f)}")
            .Order(StringComparer.Ordinal)];
}
