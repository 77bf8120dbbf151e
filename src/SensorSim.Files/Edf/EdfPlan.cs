// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Edf;

/// <summary>What the files of a recording look like, and whether they can be.</summary>
internal static class EdfPlan
{
    /// <summary>Fewest bytes of annotations in a record: the time, the true end, and a few changes.</summary>
    public const int FewestAnnotationBytes = 256;

    private const string Elsewhere = "write it as CSV or Parquet";

    // What is left of the field of the recording after the date and two unknowns.
    private const int LongestDevice = 54;

    /// <summary>Devices in the order of their first channels.</summary>
    public static string[] Devices(StreamFormat format) => [.. format.Channels.Select(c => c.Device).Distinct(StringComparer.Ordinal)];

    public static string FileName(string device, int devices, bool isBdf, EdfWriteOptions options) =>
        $"{options.BaseName}{(devices == 1 ? "" : "_" + device)}{(isBdf ? ".bdf" : ".edf")}";

    public static bool IsBdf(StreamFormat format, EdfWriteOptions options) => options.Container switch
    {
        EdfContainer.Edf => false,
        EdfContainer.Bdf => true,
        _ => !format.Channels.All(c => c.Bits <= 16 && EdfScale.Of(c, isBdf: false)?.RelativeError == 0),
    };

    public static string? WhyNot(StreamFormat format, EdfWriteOptions options)
    {
        if (options.AnnotationBytes < FewestAnnotationBytes)
        {
            return string.Create(CultureInfo.InvariantCulture, $"{options.AnnotationBytes} bytes of annotations a record are too few; take {FewestAnnotationBytes} or more.");
        }

        bool isBdf = IsBdf(format, options);
        foreach (ChannelFormat c in format.Channels)
        {
            if (!isBdf && c.Bits > 16)
            {
                return string.Create(CultureInfo.InvariantCulture, $"{c.Name.Text()} has {c.Bits} bits, and EDF holds 16; write it as BDF.");
            }

            if (c.Device.Length is 0 or > LongestDevice || c.Device.AsSpan().IndexOfAnyExceptInRange('!', '~') >= 0)
            {
                return string.Create(CultureInfo.InvariantCulture, $"device \"{c.Device}\" does not fit the header of EDF and BDF (1 to {LongestDevice} characters of ASCII without spaces); {Elsewhere}.");
            }

            if (EdfScale.Of(c, isBdf) is null || EdfChannelText.Of(c).Length > EdfChannelText.Width)
            {
                return string.Create(CultureInfo.InvariantCulture, $"{c.Name.Text()}: a scale of {c.UnitPerCode:R} {c.Unit} per code with zero at code {c.ZeroCode} and a delay of {c.DeclaredDelayNs} ns does not fit the header of EDF and BDF; {Elsewhere}.");
            }
        }

        foreach (string device in Devices(format))
        {
            long bytes = SampleBytes(format, device, isBdf);
            if (bytes + FewestAnnotationBytes > EdfFields.LargestRecordBytes)
            {
                return string.Create(CultureInfo.InvariantCulture, $"the samples of one second of device {device} take {bytes} bytes, and a record of EDF and BDF holds {EdfFields.LargestRecordBytes} with its annotations; {Elsewhere}.");
            }
        }

        return null;
    }

    public static IReadOnlyList<string> Notes(StreamFormat format, bool isBdf) =>
        [.. format.Channels.Where(c => EdfScale.Of(c, isBdf)!.RelativeError > 0).Select(c => string.Create(
            CultureInfo.InvariantCulture,
            $"{c.Name.Text()}: {c.UnitPerCode:R} {c.Unit} per code is not exact in the eight characters of the header, other programs see it {Ppm(EdfScale.Of(c, isBdf)!.RelativeError)} ppm off; the codes are exact, and the scale stands beside them in full."))];

    private static string Ppm(double error) => error < 1e-9 ? "less than 0.001" : string.Create(CultureInfo.InvariantCulture, $"{error * 1e6:0.###}");

    /// <summary>Header of the file of one device.</summary>
    public static EdfHeader Header(StreamFormat format, string device, bool isBdf, EdfWriteOptions options)
    {
        int width = isBdf ? 3 : 2;
        long room = EdfFields.LargestRecordBytes - SampleBytes(format, device, isBdf);
        var signals = new List<EdfSignal>();
        foreach (ChannelFormat c in format.Channels.Where(c => string.Equals(c.Device, device, StringComparison.Ordinal)))
        {
            EdfScale scale = EdfScale.Of(c, isBdf)!;
            signals.Add(new EdfSignal
            {
                Label = EdfLabels.Of(c.Name),
                Transducer = EdfChannelText.Of(c),
                Dimension = scale.Dimension,
                PhysicalMinimum = scale.PhysicalMinimum,
                PhysicalMaximum = scale.PhysicalMaximum,
                DigitalMinimum = scale.DigitalMinimum,
                DigitalMaximum = scale.DigitalMaximum,
                SamplesPerRecord = c.RateHz,
            });
        }

        signals.Add(EdfSignal.Annotations(isBdf, (int)Math.Min(room, options.AnnotationBytes) / width));
        return new EdfHeader
        {
            IsBdf = isBdf,
            Continuity = EdfContinuity.Continuous,
            Patient = options.Patient,
            Recording = EdfHeaderWriter.RecordingField(options.Start, "X", "X", device),
            Start = options.Start,
            RecordCount = options.EndTick is long end ? Math.Max(1, (end + format.Clock.TicksPerSecond - 1) / format.Clock.TicksPerSecond) : -1,
            RecordDurationS = 1,
            Signals = signals,
        };
    }

    private static long SampleBytes(StreamFormat format, string device, bool isBdf) =>
        format.Channels.Where(c => string.Equals(c.Device, device, StringComparison.Ordinal)).Sum(c => (long)c.RateHz) * (isBdf ? 3 : 2);
}
