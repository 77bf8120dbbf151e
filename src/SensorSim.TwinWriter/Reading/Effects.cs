// SPDX-License-Identifier: MIT
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.Operations;

namespace SensorSim.TwinWriter.Reading;

/// <summary>Finds out what expressions read and change.</summary>
/// <remarks>On the careful side: what is not known to be harmless counts as a change.</remarks>
internal sealed class Effects
{
    private readonly Twin _twin;
    private readonly HashSet<ISymbol> _changing = new(SymbolEqualityComparer.Default);

    /// <summary>Looks at every function until no further one turns out to change something.</summary>
    /// <param name="twin">The functions.</param>
    public Effects(Twin twin)
    {
        _twin = twin;
        int before;
        do
        {
            before = _changing.Count;
            foreach (TwinMethod method in twin.Methods)
            {
                if (method.Body is not null && method.Symbol.MethodKind != MethodKind.Constructor && Of(method.Body, isWholeMethod: true).WritesMemory)
                {
                    _changing.Add(method.Symbol);
                }
            }
        }
        while (_changing.Count > before);
    }

    /// <summary>Whether a function changes what lies outside of it, other than through its ref and out parameters.</summary>
    public bool IsChanging(IMethodSymbol method) => _twin.Find(method) is TwinMethod found && _changing.Contains(found.Symbol);

    /// <summary>What an expression reads and changes.</summary>
    /// <param name="operation">The expression.</param>
    /// <param name="isWholeMethod">Whether it is a function's whole body: then what goes through its ref and out parameters does not count.</param>
    /// <returns>What it reads and changes.</returns>
    public Footprint Of(IOperation operation, bool isWholeMethod = false)
    {
        var print = new Footprint();
        foreach (IOperation each in Lanes.Without(operation))
        {
            switch (each)
            {
                case IAssignmentOperation assignment:
                    Write(print, assignment.Target, isWholeMethod);
                    break;
                case IIncrementOrDecrementOperation increment:
                    Write(print, increment.Target, isWholeMethod);
                    break;
                case IInvocationOperation call:
                    Call(print, call, isWholeMethod);
                    break;
                case ILocalReferenceOperation local when IsPlain(local.Local.Type, local.Local.RefKind):
                    print.Reads.Add(local.Local);
                    break;
                case IParameterReferenceOperation parameter when IsPlain(parameter.Parameter.Type, parameter.Parameter.RefKind):
                    print.Reads.Add(parameter.Parameter);
                    break;
                case ILocalReferenceOperation or IParameterReferenceOperation or IInstanceReferenceOperation:
                    print.ReadsMemory = true;
                    break;
                case IPropertyReferenceOperation { Property.SetMethod: IMethodSymbol setter } property when IsTarget(property) && IsChanging(setter):
                    print.WritesMemory = true;
                    break;
            }
        }

        return print;
    }

    private static bool IsTarget(IOperation operation) => operation.Parent is IAssignmentOperation assignment && assignment.Target == operation;

    private void Call(Footprint print, IInvocationOperation call, bool isWholeMethod)
    {
        print.WritesMemory |= IsChanging(call.TargetMethod) && !(isWholeMethod && IsOwnVariable(call.Instance));
        foreach (IArgumentOperation argument in call.Arguments)
        {
            if (argument.Parameter!.RefKind is RefKind.Ref or RefKind.Out && !TypeFacts.IsProbe(argument.Parameter.Type))
            {
                Write(print, argument.Value, isWholeMethod);
            }
        }
    }

    // A change of a local struct is none that the caller of the method could see.
    private static bool IsOwnVariable(IOperation? instance) => instance is not null && Root(instance) is ILocalReferenceOperation { Local.RefKind: RefKind.None };

    private static void Write(Footprint print, IOperation target, bool isWholeMethod)
    {
        IOperation root = Root(target);
        bool isWhole = root == target || target is IDeclarationExpressionOperation;
        switch (root)
        {
            case IDiscardOperation:
                break;
            case ILocalReferenceOperation local when isWhole && IsPlain(local.Local.Type, local.Local.RefKind):
                print.Writes.Add(local.Local);
                break;
            case IParameterReferenceOperation parameter when isWhole && IsPlain(parameter.Parameter.Type, parameter.Parameter.RefKind):
                print.Writes.Add(parameter.Parameter);
                break;
            case ILocalReferenceOperation local when isWholeMethod && local.Local.RefKind == RefKind.None && !TypeFacts.IsSpan(local.Local.Type):
                break;
            case ILocalReferenceOperation local when isWholeMethod && isWhole:
                break;
            case IParameterReferenceOperation parameter when isWholeMethod && parameter.Parameter.RefKind is RefKind.Ref or RefKind.Out:
                break;
            case IParameterReferenceOperation parameter when isWholeMethod && isWhole:
                break;
            case IInstanceReferenceOperation instance when instance.ReferenceKind == InstanceReferenceKind.ImplicitReceiver:
                break;
            default:
                print.WritesMemory = true;
                break;
        }
    }

    // Values that C keeps in a variable of its own, and whose address nobody has but for the length of a call.
    private static bool IsPlain(ITypeSymbol type, RefKind kind) =>
        kind == RefKind.None && (TypeFacts.IsInteger(type) || type.SpecialType == SpecialType.System_Boolean);

    /// <summary>The variable that a place lies in.</summary>
    public static IOperation Root(IOperation operation)
    {
        while (true)
        {
            switch (operation)
            {
                case IFieldReferenceOperation { Instance: IOperation inner }:
                    operation = inner;
                    break;
                case IPropertyReferenceOperation { Instance: IOperation inner }:
                    operation = inner;
                    break;
                case IInlineArrayAccessOperation access:
                    operation = access.Instance;
                    break;
                case IImplicitIndexerReferenceOperation reference:
                    operation = reference.Instance;
                    break;
                case IConversionOperation conversion:
                    operation = conversion.Operand;
                    break;
                case IDeclarationExpressionOperation declaration:
                    operation = declaration.Expression;
                    break;
                default:
                    return operation;
            }
        }
    }
}
