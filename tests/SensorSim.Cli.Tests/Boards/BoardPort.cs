// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using SensorSim.Links;
using SensorSim.Links.Lines;
using SensorSim.Tests.Boards;

namespace SensorSim.Cli.Tests.Boards;

/// <summary>A board behind a TCP port of this machine: who connects first meets a new board, who connects again the same one.</summary>
internal sealed class BoardPort : IDisposable
{
    private readonly TcpListener _listener = new(IPAddress.Loopback, 0);
    private readonly Func<ILink, IDisposable> _create;
    private readonly Thread _thread;
    private IDisposable? _board;

    /// <summary>Serves the library's board.</summary>
    public BoardPort(BoardHabits? habits = null)
        : this(link => new LibraryBoard(link, habits))
    {
    }

    /// <summary>Serves a board of another kind.</summary>
    public BoardPort(Func<ILink, IDisposable> create)
    {
        _create = create;
        _listener.Start();
        _thread = new Thread(Serve) { IsBackground = true };
        _thread.Start();
    }

    /// <summary>Number of the TCP port.</summary>
    public int Number => ((IPEndPoint)_listener.LocalEndpoint).Port;

    /// <summary>Address for <c>--link</c>.</summary>
    public string Address => string.Create(CultureInfo.InvariantCulture, $"tcp:127.0.0.1:{Number}");

    /// <summary>The board; null before anybody has connected.</summary>
    public LibraryBoard? Board => _board as LibraryBoard;

    /// <inheritdoc/>
    public void Dispose()
    {
        _listener.Stop();
        _thread.Join(5000);
        _board?.Dispose();
    }

    private void Serve()
    {
        while (true)
        {
            try
            {
                var link = TcpLink.FromSocket(_listener.AcceptSocket(), "host");
                if (_board is LibraryBoard board)
                {
                    board.PlugIn(link);
                }
                else
                {
                    _board = _create(link);
                }
            }
            catch (SocketException)
            {
                return;
            }
            catch (InvalidOperationException)
            {
                // Stopped before it was asked again, or disposed of.
                return;
            }
        }
    }
}
