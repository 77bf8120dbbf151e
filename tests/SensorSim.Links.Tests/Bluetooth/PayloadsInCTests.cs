// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Runtime.InteropServices;
using System.Text;
using SensorSim.Links.Bluetooth;
using SensorSim.Tests.Shared;

namespace SensorSim.Links.Tests.Bluetooth;

/// <summary>The values of characteristics in C say and make what those in C# do.</summary>
public sealed class PayloadsInCTests
{
    private readonly byte[] _text = new byte[1024];
    private readonly byte[] _again = new byte[64];
    private string _folder = null!;
    private nint _library;
    private ValueCall _value = null!;

    private delegate int ValueCall(int characteristic, byte[] value, int length, byte[] text, byte[] again);

    private delegate int SFloatCall(int milli, int exponent);

    private delegate int MilliCall(int raw, out int milli);

    private delegate int IntervalCall(uint microseconds);

    [OneTimeSetUp]
    public void Build()
    {
        string link = Path.Combine(CCompiler.Root, "src", "firmware", "link");
        _folder = Directory.CreateTempSubdirectory("payloads-c").FullName;
        _library = NativeLibrary.Load(CCompiler.Library(
            Path.Combine(CCompiler.Root, "tests", "firmware", "payloads_shim.c"),
            Path.Combine(_folder, "payloads.so"),
            ["-Wconversion", "-pedantic", "-I", link, Path.Combine(link, "sensorsim_payloads.c")]));
        _value = Export<ValueCall>("shim_value");
    }

    [OneTimeTearDown]
    public void Drop()
    {
        NativeLibrary.Free(_library);
        Directory.Delete(_folder, recursive: true);
    }

    [Test]
    public void Value_KnownAnswers_SayTheirFieldsAndAreMadeAgain()
    {
        foreach ((string characteristic, byte[] value, string fields) in KnownAnswers.All())
        {
            Assert.That(ReadInC(characteristic, value), Is.EqualTo((fields, Convert.ToHexString(value))));
            Assert.That(ReadInC(characteristic, value[..^1]), Is.Null, fields);
            Assert.That(ReadInC(characteristic, [.. value, 0]), Is.Null, fields);
        }
    }

    [Test]
    public void Value_AnyBytes_IsReadAndRefusedAlike()
    {
        var random = new Random(12);
        int read = 0;
        for (int i = 0; i < 50_000; i++)
        {
            var value = new byte[random.Next(21)];
            random.NextBytes(value);
            foreach (string characteristic in new[] { "2A37", "2A5E", "2A5F", "2A35" })
            {
                (string Fields, byte[] Again)? here = KnownAnswers.Read(characteristic, value);
                Assert.That(ReadInC(characteristic, value), Is.EqualTo(here is (string f, byte[] a) ? (f, Convert.ToHexString(a)) : null), Convert.ToHexString(value));
                read += here is null ? 0 : 1;
            }
        }

        Assert.That(read, Is.GreaterThan(1000));
    }

    [Test]
    public void SFloat_AnyValue_IsMadeAndReadAlike()
    {
        SFloatCall make = Export<SFloatCall>("shim_sfloat");
        MilliCall milliOf = Export<MilliCall>("shim_milli");
        var random = new Random(13);
        for (int i = 0; i < 200_000; i++)
        {
            int exponent = random.Next(-8, 8);
            int milli = (int)(random.NextInt64(1L << random.Next(1, 32)) * (random.Next(2) == 0 ? 1 : -1));
            milli = i < 16 ? int.MinValue : i < 32 ? int.MaxValue : milli;
            Assert.That(make(milli, exponent), Is.EqualTo(SFloat.FromMilli(milli, exponent).Raw), $"{milli} {exponent}");
        }

        for (int raw = 0; raw <= ushort.MaxValue; raw++)
        {
            bool fits = new SFloat((ushort)raw).TryMilli(out int milli);
            Assert.That(milliOf(raw, out int there), Is.EqualTo(fits ? 1 : 0), $"{raw:X4}");
            Assert.That(fits ? there : 0, Is.EqualTo(milli), $"{raw:X4}");
        }
    }

    [TestCase(833_000u, 853)]
    [TestCase(600_000u, 614)]
    [TestCase(1_000_000u, 1024)]
    [TestCase(0u, 0)]
    [TestCase(488u, 0)]
    [TestCase(489u, 1)]
    [TestCase(63_900_000u, 65_434)]
    [TestCase(uint.MaxValue, 65_535)]
    public void Interval_Microseconds_AreRounded(uint microseconds, int interval)
        => Assert.That(Export<IntervalCall>("shim_interval")(microseconds), Is.EqualTo(interval));

    private (string Fields, string Again)? ReadInC(string characteristic, byte[] value)
    {
        int length = _value(int.Parse(characteristic, NumberStyles.HexNumber, CultureInfo.InvariantCulture), [.. value], value.Length, _text, _again);
        return length == 0 ? null : (Encoding.ASCII.GetString(_text, 0, Array.IndexOf(_text, (byte)0)), Convert.ToHexString(_again, 0, length));
    }

    private T Export<T>(string name)
        where T : Delegate => Marshal.GetDelegateForFunctionPointer<T>(NativeLibrary.GetExport(_library, name));
}
