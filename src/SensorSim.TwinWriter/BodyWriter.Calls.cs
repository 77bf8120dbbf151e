// SPDX-License-Identifier: MIT
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.Operations;
using SensorSim.TwinWriter.Expressions;
using SensorSim.TwinWriter.Naming;
using SensorSim.TwinWriter.Reading;

namespace SensorSim.TwinWriter;

/// <content>Calls, and the order of what is computed for them.</content>
internal sealed partial class BodyWriter
{
    // Whether the place being written must stay where it is whatever comes after.
    private bool _keepsIndices;

    // The number of an entry.
    private CExpr Index(IOperation index)
    {
        CExpr text = Expr(index);
        return _keepsIndices && !index.ConstantValue.HasValue ? Keep(text, index.Type!, "at") : text;
    }

    // Operands in the order of C#. One that is to be read before another changes it is kept in a variable.
    private CExpr[] InOrder(IOperation where, params (IOperation Operation, Func<CExpr> Write, bool IsPlace)[] operands)
    {
        Footprint[] prints = [.. operands.Select(operand => operand.IsPlace ? IndicesOf(operand.Operation) : _effects.Of(operand.Operation))];
        var parts = new CExpr[operands.Length];
        for (int i = 0; i < operands.Length; i++)
        {
            bool isOrdered = prints[(i + 1)..].Any(prints[i].IsOrdered);
            if (!operands[i].IsPlace)
            {
                parts[i] = operands[i].Write();
                parts[i] = isOrdered ? Keep(parts[i], operands[i].Operation.Type!, WishFor(operands[i].Operation)) : parts[i];
                continue;
            }

            if (isOrdered && operands[i].Operation.DescendantsAndSelf().Any(each => each is IInvocationOperation))
            {
                throw new RefusalException(where.Syntax, $"'{operands[i].Operation.Syntax}' is a place that a later operand moves; say it in two statements");
            }

            bool before = _keepsIndices;
            _keepsIndices |= isOrdered;
            parts[i] = operands[i].Write();
            _keepsIndices = before;
        }

        return parts;
    }

    // What finding a place reads and changes, without what lies there.
    private Footprint IndicesOf(IOperation place)
    {
        var all = new Footprint();
        foreach (IOperation index in place.DescendantsAndSelf().SelectMany(Indices))
        {
            Footprint one = _effects.Of(index);
            all.ReadsMemory |= one.ReadsMemory;
            all.WritesMemory |= one.WritesMemory;
            all.Reads.UnionWith(one.Reads);
            all.Writes.UnionWith(one.Writes);
        }

        return all;
    }

    private static IEnumerable<IOperation> Indices(IOperation operation) => operation switch
    {
        IInlineArrayAccessOperation access => [access.Argument],
        IPropertyReferenceOperation property => property.Arguments,
        IInvocationOperation call => [call],
        _ => [],
    };

    private CExpr Invocation(IInvocationOperation call)
    {
        IMethodSymbol method = call.TargetMethod;
        if (method.ContainingType.ToDisplayString() == "System.Numerics.BitOperations")
        {
            string name = method.Name switch
            {
                "LeadingZeroCount" => "ss_leading_zeros",
                "PopCount" => "ss_ones",
                _ => throw Unknown(call),
            };
            return new CExpr(FormattableString.Invariant($"{name}{TypeFacts.Bits(method.Parameters[0].Type)}({Expr(call.Arguments[0].Value).Text})"));
        }

        return TypeFacts.IsSpan(method.ContainingType) ? SpanCall(call) : Call(method, call.Instance, call.Arguments, call);
    }

    private CExpr Call(IMethodSymbol method, IOperation? instance, IReadOnlyList<IArgumentOperation> arguments, IOperation where)
    {
        TwinMethod target = _twin.Find(method) ?? throw Unknown(where);
        Use(method.ContainingType);
        Calls.Add(target.Symbol);
        var operands = new List<(IOperation, Func<CExpr>, bool)>();
        var places = new Dictionary<int, int>();
        IMethodSymbol plain = method.OriginalDefinition;
        if (instance is not null)
        {
            operands.Add((instance, () => Receiver(target.Symbol, instance, where), Signatures.SelfKind(target.Symbol) != SelfKind.Value));
        }

        int first = operands.Count;
        foreach (IArgumentOperation argument in arguments.Where(each => !TypeFacts.IsProbe(each.Parameter!.Type) && !TypeFacts.IsProbe(each.Value.Type)))
        {
            IParameterSymbol parameter = plain.Parameters[argument.Parameter!.Ordinal];
            places.Add(parameter.Ordinal, operands.Count);
            operands.Add((argument.Value, () => Argument(argument, parameter, target.Symbol), Signatures.IsPointer(parameter)));
        }

        CExpr[] written = InOrder(where, [.. operands]);
        IEnumerable<string> texts = written[..first].Select(each => each.Text)
            .Concat(Names.Parameters(plain).Select(parameter => written[places[parameter.Ordinal]].Text));
        string call = $"{_names.Function(target.Symbol)}({string.Join(", ", texts)})";
        return new CExpr(target.Symbol.RefKind == RefKind.None ? call : $"(*{call})");
    }

    // The owner of the function that is called: its address, or a copy.
    private CExpr Receiver(IMethodSymbol method, IOperation instance, IOperation where)
    {
        if (Signatures.SelfKind(method) == SelfKind.Value)
        {
            return Expr(instance);
        }

        if (!method.IsReadOnly && (!IsVariable(instance) || IsReadOnlyPlace(instance)))
        {
            throw new RefusalException(where.Syntax, $"{method.Name} changes '{instance.Syntax}', which C# would copy first; mark {method.Name} readonly or name a variable");
        }

        return new CExpr(AddressOf(instance));
    }

    private CExpr Argument(IArgumentOperation argument, IParameterSymbol parameter, IMethodSymbol target)
    {
        IOperation value = argument.Value;
        switch (parameter.RefKind)
        {
            case RefKind.Ref or RefKind.Out when value is IDiscardOperation:
                string unused = _locals.Fresh("unused");
                _out.AddDeclaration($"{TypeName(parameter.Type)} {unused};");
                return new CExpr("&" + unused);
            case RefKind.Ref or RefKind.Out:
                return new CExpr(Place(value).Address);
            case RefKind.In when Signatures.IsPointer(parameter):
                // A property is copied for the call in C#; it shows only when the call changes something.
                bool isCopied = value is IPropertyReferenceOperation { Property.RefKind: RefKind.None } && (_effects.IsChanging(target) || HasReference(target));
                return new CExpr(isCopied ? Keep(Expr(value), parameter.Type, WishFor(value)).Address : AddressOf(value));
            default:
                return Stored(Expr(value), parameter.Type);
        }
    }

    private static bool HasReference(IMethodSymbol method) => Names.Parameters(method).Any(each => each.RefKind is RefKind.Ref or RefKind.Out);

    private string AddressOf(IOperation value)
    {
        IOperation plain = value is IConversionOperation { IsImplicit: true } conversion
            && SymbolEqualityComparer.Default.Equals(conversion.Type, conversion.Operand.Type) ? conversion.Operand : value;
        return IsVariable(plain) ? Place(plain).Address : Keep(Expr(plain), plain.Type!, WishFor(plain)).Address;
    }

    // Something that has an address in C.
    private static bool IsVariable(IOperation operation) => operation switch
    {
        ILocalReferenceOperation or IParameterReferenceOperation or IInstanceReferenceOperation or IDeclarationExpressionOperation => true,
        IFieldReferenceOperation field => field.Instance is not null && !field.Field.IsConst && IsVariable(field.Instance),
        IInlineArrayAccessOperation access => IsVariable(access.Instance),
        IPropertyReferenceOperation { Property.RefKind: not RefKind.None } => true,
        IPropertyReferenceOperation property => TypeFacts.Holder(property.Property) is not null && property.Instance is not null && IsVariable(property.Instance),
        IInvocationOperation { TargetMethod.RefKind: not RefKind.None } => true,
        _ => false,
    };

    private bool IsReadOnlyPlace(IOperation operation) => operation switch
    {
        ILocalReferenceOperation local => local.Local.RefKind is RefKind.RefReadOnly or RefKind.In,
        IParameterReferenceOperation parameter => parameter.Parameter.RefKind == RefKind.In,
        IInstanceReferenceOperation => Signatures.SelfKind(_method.Symbol) != SelfKind.Pointer,
        IFieldReferenceOperation field => (field.Field.IsReadOnly && _method.Symbol.MethodKind != MethodKind.Constructor) || IsReadOnlyPlace(field.Instance!),
        IInlineArrayAccessOperation access => IsReadOnlyPlace(access.Instance),
        IPropertyReferenceOperation property => property.Property.RefKind != RefKind.Ref,
        IInvocationOperation call => call.TargetMethod.RefKind != RefKind.Ref,
        _ => true,
    };

    // The text of something that has an address; anything else comes into a variable first.
    private CExpr Place(IOperation operation)
    {
        if (IsVariable(operation))
        {
            return Expr(operation);
        }

        return TypeFacts.IsSpan(operation.Type) ? Expr(operation) : Keep(Expr(operation), operation.Type!, WishFor(operation));
    }
}
