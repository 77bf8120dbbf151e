// SPDX-License-Identifier: MIT
namespace SensorSim.Files.Edf;

/// <summary>What the header says about one signal.</summary>
/// <remarks>A sample stands for PhysicalMinimum + (sample − DigitalMinimum) × (PhysicalMaximum − PhysicalMinimum) / (DigitalMaximum − DigitalMinimum).</remarks>
public sealed record EdfSignal
{
    /// <summary>Label of the annotation signal of EDF+.</summary>
    public const string EdfAnnotationLabel = "EDF Annotations";

    /// <summary>Label of the annotation signal of BDF+.</summary>
    public const string BdfAnnotationLabel = "BDF Annotations";

    /// <summary>Name, at most 16 characters.</summary>
    public required string Label { get; init; }

    /// <summary>What measures, at most 80 characters.</summary>
    public string Transducer { get; init; } = "";

    /// <summary>Unit with its prefix, at most 8 characters.</summary>
    public string Dimension { get; init; } = "";

    /// <summary>Physical value of <see cref="DigitalMinimum"/>; above the maximum when a rising sample means a falling value.</summary>
    public decimal PhysicalMinimum { get; init; } = -1;

    /// <summary>Physical value of <see cref="DigitalMaximum"/>.</summary>
    public decimal PhysicalMaximum { get; init; } = 1;

    /// <summary>Lowest sample.</summary>
    public required int DigitalMinimum { get; init; }

    /// <summary>Highest sample.</summary>
    public required int DigitalMaximum { get; init; }

    /// <summary>Filters, for example <c>HP:0.5Hz LP:40Hz N:50Hz</c>, at most 80 characters.</summary>
    public string Prefilter { get; init; } = "";

    /// <summary>Samples of this signal in a record.</summary>
    public required int SamplesPerRecord { get; init; }

    /// <summary>Free field, at most 32 characters; blank by the standard.</summary>
    public string Reserved { get; init; } = "";

    /// <summary>Whether the samples are the bytes of annotations.</summary>
    public bool IsAnnotation => Label is EdfAnnotationLabel or BdfAnnotationLabel;

    /// <summary>Physical value of one step of a sample; negative when inverted; 0 or not finite in a header that makes no sense.</summary>
    public double Gain => ((double)PhysicalMaximum - (double)PhysicalMinimum) / ((double)DigitalMaximum - DigitalMinimum);

    /// <summary>Sample of physical zero, where the line through the limits is; the same whatever the prefix of the unit, so that a tie is one with each.</summary>
    internal double ZeroCode
    {
        get
        {
            double away = (double)PhysicalMinimum / ((double)PhysicalMaximum - (double)PhysicalMinimum);
            bool isDecimal = Math.Abs(away) < 1e9 && Math.Abs((double)PhysicalMinimum) < 1e20 && Math.Abs((double)PhysicalMaximum) < 1e20 && PhysicalMinimum != PhysicalMaximum;
            return DigitalMinimum - (isDecimal
                ? (double)(PhysicalMinimum / (PhysicalMaximum - PhysicalMinimum) * ((decimal)DigitalMaximum - DigitalMinimum))
                : away * ((double)DigitalMaximum - DigitalMinimum));
        }
    }

    /// <summary>The annotation signal of a file.</summary>
    /// <param name="isBdf">Whether it is a BDF+ file.</param>
    /// <param name="samplesPerRecord">Samples in a record; each holds two bytes of text, three in BDF+.</param>
    public static EdfSignal Annotations(bool isBdf, int samplesPerRecord) => new()
    {
        Label = isBdf ? BdfAnnotationLabel : EdfAnnotationLabel,
        DigitalMinimum = isBdf ? -0x800000 : short.MinValue,
        DigitalMaximum = isBdf ? 0x7FFFFF : short.MaxValue,
        SamplesPerRecord = samplesPerRecord,
    };
}
