// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Runtime.InteropServices;
using SensorSim.DetectorHost;
using SensorSim.Detectors.CLibraries;

// Runs a C library for the program that started this one, through standard input and output. Not for use by hand.
if (args is not [string parent] || !int.TryParse(parent, NumberStyles.None, CultureInfo.InvariantCulture, out int parentId))
{
    return 2;
}

// An interruption from the keyboard reaches the whole group; the parent decides what becomes of it and closes the pipe.
using PosixSignalRegistration interrupt = PosixSignalRegistration.Create(PosixSignal.SIGINT, context => context.Cancel = true);
(Stream requests, Stream replies) = StandardPipes.Take();
using var watch = new ParentWatch(parentId);
return HostServer.ServeToTheEnd(requests, replies);
