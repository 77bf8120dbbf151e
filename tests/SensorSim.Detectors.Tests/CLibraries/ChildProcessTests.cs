// SPDX-License-Identifier: MIT
using System.Diagnostics;
using System.Globalization;
using SensorSim.Detectors.CLibraries;
using SensorSim.Signals.Detectors;

namespace SensorSim.Detectors.Tests.CLibraries;

/// <summary>The program of the child, and what goes through its pipes.</summary>
[TestFixture]
public sealed class ChildProcessTests
{
    [Test]
    public void Serve_InputCloses_Ends()
    {
        using Process child = ChildProgram.Start();
        child.StandardInput.Close();
        Assert.That(child.WaitForExit(20_000), Is.True);
        Assert.That(child.ExitCode, Is.Zero);
    }

    [Test]
    public void Child_ParentIsGone_EndsThoughItsInputIsOpen()
    {
        using Process parent = Process.Start("sleep", "0");
        parent.WaitForExit();
        var start = new ProcessStartInfo(Path.Combine(AppContext.BaseDirectory, "SensorSim.DetectorHost")) { RedirectStandardInput = true };
        start.ArgumentList.Add(parent.Id.ToString(CultureInfo.InvariantCulture));
        using Process child = Process.Start(start)!;
        bool hasEnded = child.WaitForExit(30_000);
        child.Kill();
        Assert.That(hasEnded, Is.True);
    }

    [TestCase()]
    [TestCase("one")]
    [TestCase("1", "2")]
    public void Child_WrongArguments_IsExitCode2(params string[] arguments)
    {
        using Process child = Process.Start(Path.Combine(AppContext.BaseDirectory, "SensorSim.DetectorHost"), arguments);
        Assert.That(child.WaitForExit(20_000), Is.True);
        Assert.That(child.ExitCode, Is.EqualTo(2));
    }

    [Test]
    public void Serve_RequestOutOfTurn_IsNoRequest()
    {
        using var requests = new MemoryStream();
        new FrameWriter().Begin(FrameKind.Flush).SendTo(requests);
        requests.Position = 0;
        Assert.That(() => HostServer.Serve(requests, Stream.Null), Throws.TypeOf<InvalidDataException>());
    }

    // Whatever bytes come, they are read or refused by one exception.
    [Test]
    public void ReadAnswers_SpoiltFrames_AreRefusedAndNothingElse()
    {
        var output = new DetectorOutput();
        for (int i = 0; i < 20; i++)
        {
            output.Marks.Add(new Signals.Marks.Mark { Sample = i, EmittedTick = 3 * i, Quality = (byte)i });
        }

        output.Requests.Add(new SettingsRequest(1, SensorSetting.Gain, 2000, 5));
        var writer = new FrameWriter();
        Messages.WriteAnswers(writer.Begin(FrameKind.Answers), output);
        using var sound = new MemoryStream();
        writer.SendTo(sound);
        byte[] bytes = sound.ToArray();
        Assert.That(Read(bytes), Is.EqualTo("20 marks"));

        var random = new Random(5);
        int refused = 0;
        for (int i = 0; i < 5000; i++)
        {
            byte[] spoilt = [.. bytes];
            for (int n = random.Next(1, 4); n > 0; n--)
            {
                spoilt[random.Next(i % 2 == 0 ? 12 : spoilt.Length)] = (byte)random.Next(256);
            }

            refused += Read(random.Next(3) == 0 ? spoilt[..random.Next(spoilt.Length)] : spoilt) == "refused" ? 1 : 0;
        }

        Assert.That(refused, Is.GreaterThan(2000));
    }

    private static string Read(byte[] bytes)
    {
        var reader = new FrameReader();
        var output = new DetectorOutput();
        try
        {
            using var stream = new MemoryStream(bytes);
            if (!reader.ReadFrom(stream))
            {
                return "closed";
            }

            Messages.ReadAnswers(reader, output);
            return $"{output.Marks.Count} marks";
        }
        catch (InvalidDataException)
        {
            return "refused";
        }
    }
}
