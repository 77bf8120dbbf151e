// SPDX-License-Identifier: MIT
using SensorSim.Links.Lines;
using SensorSim.Links.Tests.Support;
using SensorSim.Tests.Shared;

namespace SensorSim.Links.Tests.Lines;

/// <summary>What a user reads when a serial port cannot be opened: one true sentence each.</summary>
public sealed class PortErrorTests
{
    private static readonly LinkOptions Usual = new();
    private string _folder = "";

    [SetUp]
    public void MakeFolder() => _folder = Directory.CreateTempSubdirectory("sensorsim-ports").FullName;

    [TearDown]
    public void RemoveFolder() => Directory.Delete(_folder, true);

    [Test]
    public void Missing_Port_IsNamedWithThoseThereAre()
    {
        string message = Message("/dev/ttyNOSUCH7");
        Assert.That(message, Does.StartWith("There is no serial port /dev/ttyNOSUCH7"));
        foreach (string name in PortTrouble.Names())
        {
            Assert.That(message, Does.Contain(name));
        }
    }

    [Test]
    public void Link_ToNowhere_IsMissing()
    {
        string link = Path.Combine(_folder, "board");
        File.CreateSymbolicLink(link, Path.Combine(_folder, "gone"));
        Assert.That(Message(link), Does.StartWith($"There is no serial port {link}"));
    }

    [Test]
    public void RegularFile_IsNoSerialPort()
    {
        string file = Path.Combine(_folder, "notes.txt");
        File.WriteAllText(file, "text");
        Assert.That(Message(file), Does.StartWith($"{file} is a regular file, not a serial port"));
        Assert.That(File.ReadAllText(file), Is.EqualTo("text"));
    }

    [Test]
    public void Folder_IsNoSerialPort() => Assert.That(Message(_folder), Is.EqualTo($"{_folder} is a folder, not a serial port."));

    [Test]
    public void OtherDevice_IsNoSerialPort() => Assert.That(Message("/dev/null"), Does.StartWith("/dev/null is a device, but not a serial port"));

    [Test]
    public void PortInUse_SecondOpenOfSameProcess_IsRefused_AlsoByAnotherName()
    {
        using var ptys = new PtyPair();
        string link = Path.Combine(_folder, "board");
        File.CreateSymbolicLink(link, ptys.Host);
        using (SerialLink first = SerialLink.Open(link, Usual))
        {
            Assert.That(Message(ptys.Host), Is.EqualTo($"Serial port {ptys.Host} is in use by another program: end that program first."));
            Assert.That(first.Read(new byte[1], TimeSpan.Zero), Is.Zero, "the first one must not suffer");
        }

        using SerialLink second = SerialLink.Open(ptys.Host, Usual);
        Assert.That(second.Read(new byte[1], TimeSpan.Zero), Is.Zero);
    }

    [Test]
    public void PortInUse_SecondProcess_IsRefused()
    {
        if (OtherProcess.Told is { } port)
        {
            Assert.That(Message(port), Does.StartWith($"Serial port {port} is in use"));
            return;
        }

        using var ptys = new PtyPair();
        using SerialLink first = SerialLink.Open(ptys.Host, Usual);
        using OtherProcess other = OtherProcess.Start(ptys.Host);
        other.ExpectPasses();
    }

    [Test]
    public void PortInUse_ByProgramThatKnowsNoLockFile_IsRefusedAllTheSame()
    {
        if (OtherProcess.Told is { } port)
        {
            Assert.That(Message(port), Does.StartWith($"Serial port {port} is in use"));
            return;
        }

        // With another temporary folder the lock file is not seen, and without the right of an administrator the system itself says no.
        using var ptys = new PtyPair();
        using SerialLink first = SerialLink.Open(ptys.Host, Usual);
        string[] asUser = Environment.UserName == "root" ? ["setpriv", "--bounding-set", "-sys_admin"] : [];
        using OtherProcess other = OtherProcess.Start(ptys.Host, ["env", "TMPDIR=" + _folder, .. asUser]);
        other.ExpectPasses();
    }

    [Test]
    public void PortInUse_OfProcessThatWasKilled_IsFree()
    {
        if (OtherProcess.Told is { } told)
        {
            string[] parts = told.Split('|');
            using SerialLink held = SerialLink.Open(parts[0], Usual);
            File.WriteAllText(parts[1], "held");
            using var never = new ManualResetEventSlim();
            never.Wait(TimeSpan.FromMinutes(2));
            return;
        }

        using var ptys = new PtyPair();
        string sign = Path.Combine(_folder, "sign");
        using OtherProcess other = OtherProcess.Start($"{ptys.Host}|{sign}");
        Assert.That(() => File.Exists(sign), Is.True.After(60_000, 50), "the other process does not open the port");
        Assert.That(Message(ptys.Host), Does.StartWith($"Serial port {ptys.Host} is in use"));
        other.Kill();
        using SerialLink mine = SerialLink.Open(ptys.Host, Usual);
        Assert.That(mine.Read(new byte[1], TimeSpan.Zero), Is.Zero);
    }

    [Test]
    public void NoPermission_ForPort_NamesItsGroup()
    {
        // Root may open everything: then the same test runs once more in a process without that right, as a user's would be.
        if (OtherProcess.Told is { } told)
        {
            ExpectNoPermission(told);
            return;
        }

        using var ptys = new PtyPair();
        string before = CCompiler.Run("stat", "-c", "%a", ptys.Host).Trim();
        CCompiler.Run("chmod", "060", ptys.Host);
        try
        {
            if (Environment.UserName == "root")
            {
                // A group of another name than the owner's; this one Debian gives to serial ports.
                CCompiler.Run("chgrp", "dialout", ptys.Host);

                // As root, but nobody whom modes let through, and in no group.
                using OtherProcess other = OtherProcess.Start(
                    ptys.Host, "setpriv", "--bounding-set", "-dac_override,-dac_read_search,-sys_admin", "--clear-groups");
                other.ExpectPasses();
            }
            else
            {
                ExpectNoPermission(ptys.Host);
            }
        }
        finally
        {
            CCompiler.Run("chmod", before, ptys.Host);
        }
    }

    private static void ExpectNoPermission(string port)
    {
        string group = CCompiler.Run("stat", "-c", "%G", port).Trim();
        Assert.That(Message(port), Is.EqualTo(
            $"No permission for serial port {port}: it belongs to the group {group}; join it (sudo usermod -aG {group} {Environment.UserName}) and log in again."));
    }

    private static string Message(string port)
    {
        LinkUnavailableException e = Assert.Throws<LinkUnavailableException>(() => SerialLink.Open(port, Usual).Dispose())!;
        Assert.That(e.Message, Does.Not.Contain('\n').And.Not.Contain("Exception"));
        return e.Message;
    }
}
