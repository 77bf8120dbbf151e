// SPDX-License-Identifier: MIT
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.Operations;

namespace SensorSim.TwinWriter.Reading;

/// <summary>What computes in lanes of a processor, or by another instruction that it may have: the twin has the plain way beside it only.</summary>
/// <remarks>
/// Two things have no twin: a branch whose condition asks first whether the processor has lanes, and what stands in a file X.Lanes.cs. Whoever calls
/// the latter from elsewhere than the former is refused, as with anything else that is not of the source.
/// </remarks>
internal static class Lanes
{
    private const string FileEnding = ".Lanes.cs";

    /// <summary>Whether a file has no twin.</summary>
    /// <param name="path">Its path.</param>
    public static bool IsFile(string path) => path.EndsWith(FileEnding, StringComparison.Ordinal);

    /// <summary>Whether a condition never holds in the twin: it asks whether the processor has lanes, and then perhaps for more.</summary>
    /// <param name="condition">The condition.</param>
    public static bool AreAskedFor(IOperation condition) => condition switch
    {
        IPropertyReferenceOperation { Property: { IsStatic: true, Name: "IsSupported" or "IsHardwareAccelerated" } property } =>
            property.ContainingNamespace.ToDisplayString().StartsWith("System.Runtime.Intrinsics", StringComparison.Ordinal),
        IBinaryOperation { OperatorKind: BinaryOperatorKind.ConditionalAnd } both => AreAskedFor(both.LeftOperand),
        _ => false,
    };

    /// <summary>An operation and everything in it that has a twin.</summary>
    /// <param name="operation">The operation.</param>
    public static IEnumerable<IOperation> Without(IOperation operation)
    {
        if (operation is IConditionalOperation choice && AreAskedFor(choice.Condition))
        {
            return choice.WhenFalse is null ? [] : Without(choice.WhenFalse);
        }

        return operation.ChildOperations.SelectMany(Without).Prepend(operation);
    }
}
