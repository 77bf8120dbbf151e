// SPDX-License-Identifier: MIT
using SensorSim.Links.Lines;

namespace SensorSim.Links.Tests.Lines;

/// <summary>One form of text for all links, and one sentence for each mistake.</summary>
public sealed class LinkAddressTests
{
    [TestCase("/dev/ttyACM0", LinkKind.Serial, "/dev/ttyACM0", 0, "serial:/dev/ttyACM0")]
    [TestCase("serial:/dev/ttyACM0", LinkKind.Serial, "/dev/ttyACM0", 0, "serial:/dev/ttyACM0")]
    [TestCase("COM3", LinkKind.Serial, "COM3", 0, "serial:COM3")]
    [TestCase("com12", LinkKind.Serial, "com12", 0, "serial:com12")]
    [TestCase("serial:board", LinkKind.Serial, "board", 0, "serial:board")]
    [TestCase("tcp:127.0.0.1:7000", LinkKind.Tcp, "127.0.0.1", 7000, "tcp:127.0.0.1:7000")]
    [TestCase("TCP:lab-pc:65535", LinkKind.Tcp, "lab-pc", 65535, "tcp:lab-pc:65535")]
    [TestCase("tcp:[::1]:7000", LinkKind.Tcp, "::1", 7000, "tcp:[::1]:7000")]
    public void Text_OfAnAddress_IsRead(string text, LinkKind kind, string target, int port, string again)
    {
        LinkAddress address = LinkAddress.Parse(text);
        Assert.That((address.Kind, address.Target, address.TcpPort), Is.EqualTo((kind, target, port)));
        Assert.That(address.ToString(), Is.EqualTo(again));
        Assert.That(LinkAddress.Parse(again), Is.EqualTo(address));
    }

    [TestCase("", "\"\" names no port: a serial port is /dev/ttyACM0, COM3 or serial:NAME, a program is tcp:HOST:PORT")]
    [TestCase("serial:", "\"serial:\" names no port: a serial port is /dev/ttyACM0, COM3 or serial:NAME, a program is tcp:HOST:PORT")]
    [TestCase("ttyUSB0", "\"ttyUSB0\" is no address of a link; a path begins with /: /dev/ttyUSB0")]
    [TestCase("udp:host:1", "\"udp:host:1\" is no address of a link: a serial port is /dev/ttyACM0, COM3 or serial:NAME, a program is tcp:HOST:PORT")]
    [TestCase("COMX", "\"COMX\" is no address of a link: a serial port is /dev/ttyACM0, COM3 or serial:NAME, a program is tcp:HOST:PORT")]
    [TestCase("tcp:host", "\"tcp:host\" lacks host or port: write tcp:HOST:PORT, for example tcp:127.0.0.1:7000")]
    [TestCase("tcp::7000", "\"tcp::7000\" lacks host or port: write tcp:HOST:PORT, for example tcp:127.0.0.1:7000")]
    [TestCase("tcp:host:", "\"\" in \"tcp:host:\" is no TCP port: 1 to 65535")]
    [TestCase("tcp:host:0", "\"0\" in \"tcp:host:0\" is no TCP port: 1 to 65535")]
    [TestCase("tcp:host:65536", "\"65536\" in \"tcp:host:65536\" is no TCP port: 1 to 65535")]
    [TestCase("tcp:host:+5", "\"+5\" in \"tcp:host:+5\" is no TCP port: 1 to 65535")]
    [TestCase("tcp:::1:7000", "\"tcp:::1:7000\" has a colon in its host: an IPv6 address stands in brackets, for example tcp:[::1]:7000")]
    public void Mistake_InAddress_IsSaidInOneSentence(string text, string sentence)
    {
        Assert.That(LinkAddress.TryParse(text, out LinkAddress? address, out string? mistake), Is.False);
        Assert.That((address, mistake), Is.EqualTo(((LinkAddress?)null, sentence)));
        Assert.That(() => LinkAddress.Parse(text), Throws.InstanceOf<FormatException>().With.Message.EqualTo(sentence));
    }
}
