// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using SensorSim.Cli;
using SensorSim.Cli.Output;

using var interrupt = new CancellationTokenSource();
Console.CancelKeyPress += (_, e) =>
{
    // The first interrupt ends the run cleanly; a second one ends the process.
    e.Cancel = !interrupt.IsCancellationRequested;
    interrupt.Cancel();
};

// Whoever ends the process politely finds no half-made files either.
using PosixSignalRegistration terminate = PosixSignalRegistration.Create(PosixSignal.SIGTERM, End);
using PosixSignalRegistration hangUp = PosixSignalRegistration.Create(PosixSignal.SIGHUP, End);
return App.Run(args, Terminal.FromConsole(), interrupt.Token);

void End(PosixSignalContext signal)
{
    signal.Cancel = !interrupt.IsCancellationRequested;
    interrupt.Cancel();
}
