// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.CLibraries;

/// <summary>The inside of a child process: loads one C library and runs streams through it, as it is asked.</summary>
public static class HostServer
{
    /// <summary>Exit code of a child whose library took its pipes away from it.</summary>
    public const int PipeLostCode = 113;

    /// <summary>Serves until the other end closes, or until the pipes are gone.</summary>
    /// <param name="requests">Requests come from here.</param>
    /// <param name="replies">Replies go there.</param>
    /// <returns>Exit code of the child.</returns>
    public static int ServeToTheEnd(Stream requests, Stream replies)
    {
        try
        {
            Serve(requests, replies);
            return 0;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ObjectDisposedException or InvalidDataException)
        {
            // The parent says it in one sentence; a stack trace of this program would help nobody.
            return PipeLostCode;
        }
    }

    /// <summary>Serves until the other end closes.</summary>
    /// <param name="requests">Requests come from here.</param>
    /// <param name="replies">Replies go there.</param>
    /// <exception cref="InvalidDataException">What came is no request.</exception>
    public static void Serve(Stream requests, Stream replies)
    {
        ArgumentNullException.ThrowIfNull(requests);
        ArgumentNullException.ThrowIfNull(replies);
        var session = new Session();
        var request = new FrameReader();
        var reply = new FrameWriter();
        while (request.ReadFrom(requests))
        {
            try
            {
                session.Answer(request, reply);
            }
            catch (NotSupportedException e)
            {
                reply.Begin(FrameKind.Refused).AddText(e.Message);
            }
            catch (DetectorCrashedException e)
            {
                reply.Begin(FrameKind.Broken).AddText(e.Message);
            }

            reply.SendTo(replies);
        }

        session.Dispose();
    }

    private sealed class Session : IDisposable
    {
        // One more than may be given, so that the other end sees that it was too many.
        private readonly DetectorOutput _output = new(DetectorOutput.DefaultMarkCapacity + 1, DetectorOutput.DefaultRequestCapacity + 1);
        private CLibrary? _library;
        private CLibraryDetector? _detector;
        private StreamFormat? _format;
        private SampleBlock? _block;

        public void Answer(FrameReader request, FrameWriter reply)
        {
            switch (request.Kind)
            {
                case FrameKind.Load:
                    _library = new CLibrary(request.TakeText());
                    Messages.WriteDescription(reply.Begin(FrameKind.Described), _library);
                    break;
                case FrameKind.Open when _library is not null:
                    Open(request, _library);
                    reply.Begin(FrameKind.Opened);
                    break;
                case FrameKind.Block when _detector is not null:
                    Messages.ReadBlock(request, _format!, ref _block!);
                    _detector.Process(_block, _output);
                    Messages.WriteAnswers(reply.Begin(FrameKind.Answers), _output);
                    break;
                case FrameKind.Flush when _detector is not null:
                    _detector.Finish(_output);
                    Messages.WriteAnswers(reply.Begin(FrameKind.Answers), _output);
                    break;
                case FrameKind.Close when _detector is not null:
                    _detector.CloseStream();
                    reply.Begin(FrameKind.Closed);
                    break;
                default:
                    throw new InvalidDataException($"A request of kind {(int)request.Kind} does not fit here.");
            }
        }

        public void Dispose() => _detector?.Dispose();

        private void Open(FrameReader request, CLibrary library)
        {
            _detector?.Dispose();
            _output.Marks.Clear();
            _output.Requests.Clear();
            _format = Messages.ReadFormat(request);
            _block = new SampleBlock(_format, _format.Clock.TicksPerSecond);

            // Alone in its process a library may compute as it likes: nobody else's numbers are touched.
            _detector = new CLibraryDetector(library, Messages.ReadValues(request), isArithmeticWatched: false);
            _detector.Start(_format);
        }
    }
}
