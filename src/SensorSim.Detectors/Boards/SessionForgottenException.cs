// SPDX-License-Identifier: MIT
namespace SensorSim.Detectors.Boards;

/// <summary>The board no longer knows the session: it has started anew.</summary>
internal sealed class SessionForgottenException : Exception
{
    public SessionForgottenException()
        : base("The session is forgotten")
    {
    }
}
