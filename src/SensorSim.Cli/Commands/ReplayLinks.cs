// SPDX-License-Identifier: MIT
using SensorSim.Cli.Options;
using SensorSim.Links;
using SensorSim.Links.Damage;
using SensorSim.Links.Lines;
using SensorSim.Studies.Results;

namespace SensorSim.Cli.Commands;

/// <summary>The links of a replay, one after the other where the board was unplugged, each with the damage that is wanted.</summary>
internal sealed class ReplayLinks
{
    private readonly LineChoice _line;
    private readonly DamagePlan? _plan;
    private readonly List<DamagedLink> _damaged = [];
    private readonly LinkReopener _reopener;

    /// <summary>Creates them; opens nothing.</summary>
    /// <param name="line">Where they lead.</param>
    /// <param name="plan">What is done to frames; null: nothing.</param>
    public ReplayLinks(LineChoice line, DamagePlan? plan)
    {
        _line = line;
        _plan = plan;
        _reopener = new LinkReopener(Open);
    }

    /// <summary>What was done to frames, over all links.</summary>
    public IReadOnlyList<LinkDamage> Damage => _plan is null
        ? []
        : [Sum("to_board", l => l.ToBoard), Sum("from_board", l => l.FromBoard)];

    /// <summary>Opens one.</summary>
    /// <exception cref="LinkUnavailableException">It cannot be opened.</exception>
    public ILink Open()
    {
        ILink link = _line.Open();
        if (_plan is null)
        {
            return link;
        }

        // Another seed for each, or every one would begin with the same faults.
        var damaged = new DamagedLink(link, _plan with { Seed = _plan.Seed + (ulong)_damaged.Count });
        _damaged.Add(damaged);
        return damaged;
    }

    /// <summary>Waits for the link to come back; null when it does not, or when that is no longer wanted.</summary>
    /// <param name="atMost">How long.</param>
    /// <param name="cancellation">Ends the waiting.</param>
    public ILink? Reopen(TimeSpan atMost, CancellationToken cancellation) => _reopener.Reopen(atMost, cancellation);

    private LinkDamage Sum(string direction, Func<DamagedLink, DamageCounts> of)
    {
        DamageCounts[] counts = [.. _damaged.Select(of)];
        return new LinkDamage(direction,
        [
            ("frames", counts.Sum(c => c.Frames)),
            ("dropped", counts.Sum(c => c.Dropped)),
            ("corrupted", counts.Sum(c => c.Corrupted)),
            ("broken_pieces", counts.Sum(c => c.BrokenPieces)),
            ("duplicated", counts.Sum(c => c.Duplicated)),
            ("delayed", counts.Sum(c => c.Delayed)),
            ("reordered", counts.Sum(c => c.Reordered)),
            ("stalled", counts.Sum(c => c.Stalled)),
        ]);
    }
}
