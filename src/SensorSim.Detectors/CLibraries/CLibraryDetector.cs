// SPDX-License-Identifier: MIT
using System.Text;
using SensorSim.Detectors.Choices;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.CLibraries;

/// <summary>A C library as a detector, in this process.</summary>
internal sealed unsafe class CLibraryDetector : IDetector
{
    private const int MessageBytes = 1024;

    private readonly CLibrary _library;
    private readonly IReadOnlyDictionary<string, double> _constants;
    private readonly bool _isArithmeticWatched;
    private NativeRoom? _room;
    private AnswerRoom? _answers;
    private void* _state;

    /// <summary>Creates a detector.</summary>
    /// <param name="library">The library.</param>
    /// <param name="constants">Checked values, names with the prefix.</param>
    /// <param name="isArithmeticWatched">Whether to look after each call that the processor still computes as this program needs it.</param>
    public CLibraryDetector(CLibrary library, IReadOnlyDictionary<string, double> constants, bool isArithmeticWatched)
    {
        _library = library;
        _constants = constants;
        _isArithmeticWatched = isArithmeticWatched;
    }

    /// <inheritdoc/>
    public string Name => _library.Name;

    /// <inheritdoc/>
    public void Start(StreamFormat format)
    {
        ArgumentNullException.ThrowIfNull(format);
        Close();
        _room?.Dispose();
        _room = new NativeRoom(format.Channels.Count);
        Open(format);
        foreach ((string name, double value) in _constants)
        {
            byte[] text = Encoding.UTF8.GetBytes(name[ConstantValues.Prefix.Length..] + '\0');
            int error;
            fixed (byte* at = text)
            {
                error = _library.Set(_state, at, value);
            }

            Check(error, "refused the value of a constant");
        }
    }

    /// <inheritdoc/>
    public void Process(SampleBlock block, DetectorOutput output)
    {
        ArgumentNullException.ThrowIfNull(block);
        ArgumentNullException.ThrowIfNull(output);
        CBlock laid = _room!.Lay(block);
        CAnswers answers = Room().Begin();
        Check(_library.Process(_state, &laid, &answers), "returned an error from process");
        _answers!.Take(answers, output);
    }

    /// <inheritdoc/>
    public void Flush(DetectorOutput output)
    {
        Finish(output);
        CloseStream();
    }

    /// <summary>Asks for the last answers and leaves the stream open.</summary>
    public void Finish(DetectorOutput output)
    {
        ArgumentNullException.ThrowIfNull(output);
        CAnswers answers = Room().Begin();
        Check(_library.Flush(_state, &answers), "returned an error from flush");
        _answers!.Take(answers, output);
    }

    /// <summary>Lets go of the stream.</summary>
    public void CloseStream()
    {
        Close();
        Check(0, "");
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        Close();
        _room?.Dispose();
        _answers?.Dispose();
        _room = null;
        _answers = null;
    }

    private AnswerRoom Room() => _answers ??= new AnswerRoom(DetectorOutput.DefaultMarkCapacity, DetectorOutput.DefaultRequestCapacity);

    private void Open(StreamFormat format)
    {
        CChannel* channels = stackalloc CChannel[format.Channels.Count];
        for (int c = 0; c < format.Channels.Count; c++)
        {
            ChannelFormat from = format.Channels[c];
            channels[c] = new CChannel
            {
                Name = (int)from.Name,
                RateHz = from.RateHz,
                Bits = from.Bits,
                IsSigned = from.IsSigned ? 1 : 0,
                ZeroCode = from.ZeroCode,
                Polarity = from.Polarity,
                UnitPerCode = from.UnitPerCode,
                DeclaredDelayNs = from.DeclaredDelayNs,
                TicksPerSample = format.TicksPerSample(c),
            };

            // Letters, digits and underscores, so a byte each; cut where the field ends.
            for (int i = 0; i < Math.Min(from.Device.Length, CChannel.DeviceLength - 1); i++)
            {
                channels[c].Device[i] = (byte)from.Device[i];
            }
        }

        CFormat told = new()
        {
            Size = (uint)sizeof(CFormat),
            ChannelCount = format.Channels.Count,
            TicksPerSecond = format.Clock.TicksPerSecond,
            Channels = channels,
        };
        byte* message = stackalloc byte[MessageBytes];
        new Span<byte>(message, MessageBytes).Clear();
        void* state = null;
        int error = _library.Open(&told, &state, message, MessageBytes);
        message[MessageBytes - 1] = 0;
        if (error != 0)
        {
            string why = CLibrary.Text((IntPtr)message);
            throw new NotSupportedException(why.Length > 0 ? why : $"{Name} cannot work on this stream and does not say why (it returned {error}).");
        }

        _state = state;
        Check(0, "");
    }

    // An error stays an error of the detector; so does a processor that computes otherwise from now on.
    private void Check(int error, string what)
    {
        if (_isArithmeticWatched && !Arithmetic.IsIntact())
        {
            Arithmetic.Restore();
            throw new DetectorCrashedException($"The detector {Arithmetic.Complaint}");
        }

        if (error != 0)
        {
            throw new DetectorCrashedException($"The detector {what} (it returned {error})");
        }
    }

    private void Close()
    {
        void* state = _state;
        _state = null;
        if (state != null)
        {
            _library.Close(state);
        }
    }
}
