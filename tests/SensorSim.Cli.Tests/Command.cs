// SPDX-License-Identifier: MIT
using System.Text;
using SensorSim.Cli.Output;

namespace SensorSim.Cli.Tests;

/// <summary>What a command answered.</summary>
/// <param name="Code">Exit code.</param>
/// <param name="Out">Standard output.</param>
/// <param name="Error">Standard error.</param>
internal sealed record Answer(int Code, string Out, string Error)
{
    /// <summary>Lines of the standard error.</summary>
    public string[] Messages => Error.Split('\n', StringSplitOptions.RemoveEmptyEntries);
}

/// <summary>Runs the command in this process, on streams in memory.</summary>
internal static class Command
{
    public static Answer Run(params string[] args) => Run(CancellationToken.None, args);

    public static Answer Run(CancellationToken cancellation, params string[] args)
    {
        using var output = new MemoryStream();
        using var error = new StringWriter { NewLine = "\n" };
        int code = App.Run(args, new Terminal(output, error, isErrorTerminal: false), cancellation);
        return new Answer(code, Encoding.UTF8.GetString(output.ToArray()), error.ToString());
    }

    /// <summary>Runs a command that must be refused with an exit code: nothing on the output, at most three messages and a hint.</summary>
    public static string[] Refused(int code, params string[] args)
    {
        Answer answer = Run(args);
        Assert.That(answer.Code, Is.EqualTo(code), answer.Error);
        Assert.That(answer.Out, Is.Empty);
        Assert.That(answer.Messages, Has.All.StartsWith("sensorsim: "));
        string[] messages = [.. answer.Messages.Where(m => !m.StartsWith("sensorsim: try: ", StringComparison.Ordinal)).Select(m => m["sensorsim: ".Length..])];
        Assert.That(messages, Has.Length.InRange(1, 3));
        return messages;
    }
}
