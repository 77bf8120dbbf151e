// SPDX-License-Identifier: MIT
using SensorSim.Files.Text;

namespace SensorSim.Files.Rows;

/// <summary>A stretch of a recording that is not to be scored.</summary>
/// <param name="BeginNs">Begin [ns].</param>
/// <param name="EndNs">End, not included [ns].</param>
/// <param name="Reason">Why, in words; may be empty.</param>
public readonly record struct IntervalRow(long BeginNs, long EndNs, string Reason);

/// <summary>Reads stretches that are not to be scored: <c>begin_s,end_s,reason</c>, columns in any order, others ignored.</summary>
public sealed class IntervalsCsvReader : CsvRowReader<IntervalRow>
{
    private static readonly string[] s_required = ["begin_s", "end_s"];
    private static readonly string[] s_optional = ["reason"];

    /// <summary>Opens a file.</summary>
    /// <param name="path">Path of the file.</param>
    /// <exception cref="InputFileException">There is no such file, or its header is wrong.</exception>
    public IntervalsCsvReader(string path)
        : this(InputFiles.OpenRead(path), path)
    {
    }

    /// <summary>Reads from a stream.</summary>
    /// <param name="stream">The text; closed with the reader.</param>
    /// <param name="fileName">Name in messages.</param>
    /// <exception cref="InputFileException">The header is wrong.</exception>
    public IntervalsCsvReader(Stream stream, string fileName)
        : base(stream, fileName, s_required, s_optional, isStrict: false)
    {
    }

    private protected override IntervalRow Parse()
    {
        long begin = Table.SecondsAsNs(0);
        long end = Table.SecondsAsNs(1);
        return end > begin ? new IntervalRow(begin, end, Table[2].ToString()) : throw Table.Error(1, "must be later than begin_s");
    }
}
