// SPDX-License-Identifier: MIT
using SensorSim.Cli;
using SensorSim.Cli.Output;

using var interrupt = new CancellationTokenSource();
Console.CancelKeyPress += (_, e) =>
{
    // The first interrupt ends the run cleanly; a second one ends the process.
    e.Cancel = !interrupt.IsCancellationRequested;
    interrupt.Cancel();
};
return App.Run(args, Terminal.FromConsole(), interrupt.Token);
