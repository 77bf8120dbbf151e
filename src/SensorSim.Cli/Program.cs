// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using SensorSim.Cli;
using SensorSim.Cli.Output;
using SensorSim.Detectors.Choices;

using var interrupt = new CancellationTokenSource();
Console.CancelKeyPress += (_, e) =>
{
    // The first interrupt ends the run cleanly; a second one ends the process.
    e.Cancel = MayGoOn();
};

// Whoever ends the process politely finds no half-made files either.
using PosixSignalRegistration terminate = PosixSignalRegistration.Create(PosixSignal.SIGTERM, End);
using PosixSignalRegistration hangUp = PosixSignalRegistration.Create(PosixSignal.SIGHUP, End);
GuestCode.Guard(() => Console.SetOut(Console.Error));
int code = App.Run(args, Terminal.FromConsole(), interrupt.Token);
GuestCode.Release();
if (GuestCode.IsUsed)
{
    // A thread that a detector left running must not keep the command from ending.
    Environment.Exit(code);
}

return code;

void End(PosixSignalContext signal) => signal.Cancel = MayGoOn();

bool MayGoOn()
{
    bool isFirst = !interrupt.IsCancellationRequested;
    if (!isFirst)
    {
        GuestCode.Release();
    }

    interrupt.Cancel();
    return isFirst;
}
