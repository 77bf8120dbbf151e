// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Choices;
using SensorSim.Links;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Keys;

namespace SensorSim.Detectors.Boards;

/// <summary>Makes detectors of the board at a link, one at a time: the link is opened for each and closed with it.</summary>
public sealed class BoardFactory : IDetectorFactory
{
    private readonly Func<ILink> _open;
    private readonly BoardOptions _options;

    /// <summary>Connects once and hears who is there.</summary>
    /// <param name="open">Opens the link.</param>
    /// <param name="options">How the board is used.</param>
    /// <exception cref="LinkUnavailableException">The link cannot be opened, or nobody answers.</exception>
    public BoardFactory(Func<ILink> open, BoardOptions options)
    {
        ArgumentNullException.ThrowIfNull(open);
        ArgumentNullException.ThrowIfNull(options);
        _open = open;
        _options = options;
        using var first = new BoardDetector(open(), options);
        Identity = first.Connect().Detector;
    }

    /// <summary>Name and version as the board gives them; what is on it beside that nobody knows.</summary>
    public string Identity { get; }

    /// <inheritdoc/>
    public IReadOnlyList<NumberKey> Constants => LibraryConstants.All;

    /// <inheritdoc/>
    /// <exception cref="LinkUnavailableException">The link cannot be opened, as while another detector has it.</exception>
    public IDetector Create(IReadOnlyDictionary<string, double> constants)
    {
        ArgumentNullException.ThrowIfNull(constants);
        ConstantValues.Check(Identity, Constants, constants);
        var all = new Dictionary<string, double>(_options.Constants ?? new Dictionary<string, double>());
        foreach ((string name, double value) in constants)
        {
            all[name] = value;
        }

        return new BoardDetector(_open(), _options with { Constants = all });
    }

    /// <summary>Nothing to let go of.</summary>
    public void Dispose()
    {
    }
}
