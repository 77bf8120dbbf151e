// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Assemblies;
using SensorSim.Detectors.Boards;
using SensorSim.Detectors.CLibraries;
using SensorSim.Detectors.Control;
using SensorSim.Detectors.Programs;
using SensorSim.Links.Lines;
using SensorSim.Signals.Detectors;

namespace SensorSim.Detectors.Choices;

/// <summary>From a choice to detectors.</summary>
public static class DetectorFactories
{
    /// <summary>Opens what was chosen.</summary>
    /// <param name="choice">The choice.</param>
    /// <exception cref="IOException">The child process of a C library cannot be started, or a board's link cannot be opened.</exception>
    /// <exception cref="NotSupportedException">There is no such detector, or it cannot be loaded; the message says what would be right.</exception>
    public static IDetectorFactory Open(DetectorChoice choice)
    {
        ArgumentNullException.ThrowIfNull(choice);
        if (choice.Adapter is DetectorAdapter.Assembly or DetectorAdapter.CLibrary && choice.Calibration is not null)
        {
            throw new NotSupportedException($"{choice.Path}: a calibration is for the library of this program; the detector cannot be told");
        }

        return choice.Adapter switch
        {
            DetectorAdapter.Assembly => new AssemblyFactory(choice.Path, choice.ClassName),
            DetectorAdapter.CLibrary => new CLibraryFactory(choice.Path, choice.IsInProcess, choice.HangS),
            DetectorAdapter.Process => new ProcessFactory(choice.Command, choice.Folder, choice.HangS, choice.Calibration),
            DetectorAdapter.Board => OpenBoard(choice),
            _ => new LibraryFactory(choice.Calibration),
        };
    }

    private static BoardFactory OpenBoard(DetectorChoice choice)
    {
        try
        {
            LinkAddress address = LinkAddress.Parse(choice.Path);
            return new BoardFactory(
                () => address.Open(new LinkOptions { BaudRate = choice.BaudRate }), new BoardOptions { Calibration = choice.Calibration, HangS = choice.HangS });
        }
        catch (FormatException e)
        {
            throw new NotSupportedException(e.Message, e);
        }
    }

    /// <summary>Makes a detector with the control of the choice around it.</summary>
    /// <param name="factory">Factory of the choice.</param>
    /// <param name="choice">The choice.</param>
    /// <param name="constants">Constants, those of the choice included.</param>
    public static IDetector Create(IDetectorFactory factory, DetectorChoice choice, IReadOnlyDictionary<string, double> constants)
    {
        ArgumentNullException.ThrowIfNull(factory);
        ArgumentNullException.ThrowIfNull(choice);
        IDetector inner = factory.Create(constants);
        return choice.Control.Length == 0 ? inner : Controls.Around(choice.Control, inner);
    }
}
