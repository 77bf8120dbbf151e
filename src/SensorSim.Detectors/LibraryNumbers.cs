// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pipeline;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors;

/// <summary>The numbers of a channel that the library in C is told, for whoever writes them down for firmware.</summary>
/// <param name="Role">Number of the channel in the library.</param>
/// <param name="CodesPerUnit256">Codes for one unit, times 256.</param>
/// <param name="Delay256">Declared delay [1/256 tick].</param>
public sealed record LibraryNumbers(int Role, int CodesPerUnit256, long Delay256)
{
    /// <summary>The numbers of every channel of a stream, in its order.</summary>
    /// <param name="format">Format of the stream.</param>
    public static IReadOnlyList<LibraryNumbers> Of(StreamFormat format)
    {
        ArgumentNullException.ThrowIfNull(format);
        LibrarySetup setup = SetupOf.Stream(format);
        return
        [
            .. format.Channels.Select(c => SetupOf.RoleOf(c.Name)).Select(role => new LibraryNumbers(
                (int)role, setup.Channels[(int)role].CodesPerUnit256, setup.Channels[(int)role].Delay256)),
        ];
    }
}
