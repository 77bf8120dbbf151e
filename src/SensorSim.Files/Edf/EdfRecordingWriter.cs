// SPDX-License-Identifier: MIT
using SensorSim.Files.Output;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Edf;

/// <summary>Writes a stream as EDF+ or BDF+: one file per device, records of one second, nominal device time.</summary>
/// <remarks>
/// Codes come back exactly, whatever the scale. Gaps are filled with the code before and annotated, so are changes of the status word and the true
/// end; truth, marks and what the acquisition did are annotated as far as there is room, and what finds none is counted. Memory does not grow
/// with the length of the recording, and no block allocates anything. The layout of the annotations is on the page <c>docs/edf.md</c>.
/// </remarks>
public sealed class EdfRecordingWriter : Exports.IRecordingWriter
{
    private static readonly int s_channels = Enum.GetValues<ChannelName>().Length;
    private static readonly int s_kinds = Enum.GetValues<AcquisitionKind>().Length;
    private readonly StreamFormat _format;
    private readonly EdfDeviceFile[] _files;
    private readonly EdfDeviceFile[] _fileOf;
    private readonly long[] _delays = new long[s_channels];
    private readonly ChannelClock[] _clocks = new ChannelClock[s_channels];
    private readonly AcquisitionEvent?[] _open = new AcquisitionEvent?[s_channels * s_kinds];
    private long _endTick;

    /// <summary>Starts the files.</summary>
    /// <param name="folder">Receives the files; the caller commits it after <see cref="Complete"/>.</param>
    /// <param name="format">Format of the stream.</param>
    /// <param name="options">How to write; null for the defaults.</param>
    /// <exception cref="EdfRefusedException">The format does not fit; see <see cref="WhyNot"/>.</exception>
    public EdfRecordingWriter(OutputFolder folder, StreamFormat format, EdfWriteOptions? options = null)
        : this(folder is null ? throw new ArgumentNullException(nameof(folder)) : folder.CreateFile, format, options)
    {
    }

    /// <summary>Starts the files in streams of the caller.</summary>
    /// <param name="create">Gives the stream of a file by its name; closed with the writer; seekable unless the options name the end.</param>
    /// <param name="format">Format of the stream.</param>
    /// <param name="options">How to write; null for the defaults.</param>
    /// <exception cref="EdfRefusedException">The format does not fit; see <see cref="WhyNot"/>.</exception>
    public EdfRecordingWriter(Func<string, Stream> create, StreamFormat format, EdfWriteOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(create);
        ArgumentNullException.ThrowIfNull(format);
        options ??= new EdfWriteOptions();
        if (WhyNot(format, options) is string refusal)
        {
            throw new EdfRefusedException(refusal);
        }

        _format = format;
        bool isBdf = EdfPlan.IsBdf(format, options);
        string[] devices = EdfPlan.Devices(format);
        FileNames = [.. devices.Select(d => EdfPlan.FileName(d, devices.Length, isBdf, options))];
        Notes = EdfPlan.Notes(format, isBdf);
        for (int i = 0; i < s_channels; i++)
        {
            int number = format.IndexOf((ChannelName)i);
            _delays[i] = number < 0 ? 0 : format.Channels[number].DeclaredDelayNs;
        }

        foreach (ChannelClock clock in options.Clocks)
        {
            _clocks[(int)clock.Channel] = clock;
        }

        _files = [.. devices.Select((d, i) => new EdfDeviceFile(create(FileNames[i]), format, d, isBdf, options))];
        _fileOf = [.. Enumerable.Range(0, s_channels).Select(c => FileOf((ChannelName)c, devices))];
    }

    /// <summary>Names of the files in the folder, one per device.</summary>
    public IReadOnlyList<string> FileNames { get; }

    /// <summary>What the user should know of the files, a sentence each: scales that eight characters do not hold exactly.</summary>
    public IReadOnlyList<string> Notes { get; }

    /// <summary>Annotations of truth, marks and acquisition that found no room.</summary>
    public long AnnotationsLost => _files.Sum(f => f.AnnotationsLost);

    /// <summary>Why a format cannot be written, in one sentence, before anything is made.</summary>
    /// <param name="format">Format of the stream.</param>
    /// <param name="options">How to write; null for the defaults.</param>
    /// <returns>The sentence; null when it can.</returns>
    public static string? WhyNot(StreamFormat format, EdfWriteOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(format);
        return EdfPlan.WhyNot(format, options ?? new EdfWriteOptions());
    }

    /// <summary>Why a run whose rates change cannot be written, in one sentence; for those who know it before.</summary>
    public static string RateChangeRefusal => "EDF and BDF have one rate per signal, and this run changes a rate (setting decimation); write it as CSV or Parquet.";

    /// <summary>Writes the samples of a block; blocks come in order, without a stretch left out.</summary>
    /// <param name="block">The block.</param>
    /// <exception cref="ArgumentException">The block does not begin where the one before ended.</exception>
    /// <exception cref="EdfRefusedException">Gaps or changes of status of a second do not fit into its annotations.</exception>
    public void Write(SampleBlock block)
    {
        ArgumentNullException.ThrowIfNull(block);
        if (block.BeginTick != _endTick)
        {
            throw new ArgumentException($"The block begins at tick {block.BeginTick}; the one before ended at {_endTick}.", nameof(block));
        }

        _endTick = block.EndTick;
        foreach (EdfDeviceFile file in _files)
        {
            file.Write(block);
        }
    }

    /// <summary>Annotates a row of truth at the time that the device shows.</summary>
    /// <param name="truth">The row, in body time.</param>
    public void AddTruth(in TruthEvent truth)
    {
        int channel = (int)truth.Channel;
        long device = truth.TimeNs + _delays[channel] + _clocks[channel].LateNs(truth.TimeNs);
        EdfTalBuilder tal = _fileOf[channel].Builder(device);
        EdfTexts.Truth(ref tal, truth);
        _fileOf[channel].Keep(tal);
    }

    /// <summary>Annotates what a detector reported.</summary>
    /// <param name="mark">The mark; its channel exists in the format.</param>
    public void AddMark(in Mark mark)
    {
        ChannelName channel = _format.Channels[mark.Channel].Name;
        EdfTalBuilder tal = _fileOf[(int)channel].Builder(_format.DeviceTimeNs(mark.Channel, mark.Sample, mark.Fraction256));
        EdfTexts.Mark(ref tal, channel, mark);
        _fileOf[(int)channel].Keep(tal);
    }

    /// <summary>Annotates what the acquisition did; pieces that touch become one, gaps are annotated by themselves.</summary>
    /// <param name="happened">The event.</param>
    /// <exception cref="EdfRefusedException">A rate changes; a channel that is off (decimation 0) is a gap.</exception>
    public void AddAcquisition(in AcquisitionEvent happened)
    {
        if (happened.Kind == AcquisitionKind.Setting && happened.Setting == SensorSetting.Decimation && happened.Value > 1)
        {
            throw new EdfRefusedException(RateChangeRefusal);
        }

        if (happened.Kind == AcquisitionKind.Gap)
        {
            return;
        }

        if (!happened.Kind.IsUnusable())
        {
            Annotate(happened);
            return;
        }

        ref AcquisitionEvent? open = ref _open[((int)happened.Channel * s_kinds) + (int)happened.Kind];
        if (open is AcquisitionEvent before && before.EndNs == happened.BeginNs)
        {
            open = before with { EndNs = happened.EndNs };
            return;
        }

        if (open is AcquisitionEvent ended)
        {
            Annotate(ended);
        }

        open = happened;
    }

    /// <summary>Ends the recording where the last block ended, and closes every file.</summary>
    public void Complete()
    {
        foreach (ref AcquisitionEvent? open in _open.AsSpan())
        {
            if (open is AcquisitionEvent last)
            {
                Annotate(last);
            }

            open = null;
        }

        foreach (EdfDeviceFile file in _files)
        {
            file.Complete(_endTick);
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        foreach (EdfDeviceFile file in _files)
        {
            file.Dispose();
        }
    }

    private void Annotate(in AcquisitionEvent happened)
    {
        EdfDeviceFile file = _fileOf[(int)happened.Channel];
        EdfTalBuilder tal = file.Builder(happened.BeginNs);
        EdfTexts.Acquisition(ref tal, happened);
        file.Keep(tal);
    }

    private EdfDeviceFile FileOf(ChannelName channel, string[] devices)
    {
        int number = _format.IndexOf(channel);
        return _files[number < 0 ? 0 : Array.IndexOf(devices, _format.Channels[number].Device)];
    }
}
