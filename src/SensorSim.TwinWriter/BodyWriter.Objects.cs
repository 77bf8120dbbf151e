// SPDX-License-Identifier: MIT
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.Operations;
using SensorSim.TwinWriter.Expressions;
using SensorSim.TwinWriter.Naming;
using SensorSim.TwinWriter.Reading;

namespace SensorSim.TwinWriter;

/// <content>New values, and values with some parts changed.</content>
internal sealed partial class BodyWriter
{
    private CExpr Creation(IObjectCreationOperation creation)
    {
        ITypeSymbol type = creation.Type!;
        if (TypeFacts.IsSpan(type))
        {
            return OneValue(creation, type);
        }

        IMethodSymbol constructor = creation.Constructor ?? throw Unknown(creation);
        bool isPlain = constructor.Parameters.Length == 0 && constructor.IsImplicitlyDeclared;
        if (isPlain)
        {
            return Initialised(creation, type);
        }

        CExpr made = Call(constructor, null, creation.Arguments, creation);
        return creation.Initializer is null ? made : Changed(Keep(made, type, "made"), creation.Initializer);
    }

    // new ReadOnlySpan<T>(in value): a view of one value.
    private CExpr OneValue(IObjectCreationOperation creation, ITypeSymbol type)
    {
        if (creation.Arguments is not [{ Parameter.RefKind: RefKind.In or RefKind.Ref or RefKind.RefReadOnlyParameter } argument])
        {
            throw Unknown(creation);
        }

        return new CExpr($"{_names.View(type)}_of({AddressOf(argument.Value)}, 1)");
    }

    private CExpr Initialised(IObjectCreationOperation creation, ITypeSymbol type)
    {
        if (creation.Initializer is null || creation.Initializer.Initializers.IsEmpty)
        {
            return new CExpr($"({TypeName(type)}){{ 0 }}", Binding.Unary);
        }

        ISimpleAssignmentOperation[] parts = [.. creation.Initializer.Initializers.Select(Part)];
        CExpr[] values = InOrder(
            creation, [.. parts.Select(part => (part.Value, (Func<CExpr>)(() => Stored(Expr(part.Value), part.Value.Type!)), false))]);
        IEnumerable<string> texts = parts.Zip(values, (part, value) => $".{PartName(part)} = {value.Text}");
        return new CExpr($"({TypeName(type)}){{ {string.Join(", ", texts)} }}", Binding.Unary);
    }

    private CExpr With(IWithOperation with)
    {
        CExpr copy = Keep(Expr(with.Operand), with.Type!, "changed");
        return with.Initializer is IObjectOrCollectionInitializerOperation initializer ? Changed(copy, initializer) : copy;
    }

    private CExpr Changed(CExpr copy, IObjectOrCollectionInitializerOperation initializer)
    {
        foreach (ISimpleAssignmentOperation part in initializer.Initializers.Select(Part))
        {
            string value = Stored(Expr(part.Value), part.Value.Type!).Text;
            _out.Add($"{copy.Text}.{PartName(part)} = {value};");
        }

        return copy;
    }

    private static ISimpleAssignmentOperation Part(IOperation operation) => operation as ISimpleAssignmentOperation ?? throw Unknown(operation);

    private string PartName(ISimpleAssignmentOperation part)
    {
        IFieldSymbol? field = part.Target switch
        {
            IFieldReferenceOperation reference => reference.Field,
            IPropertyReferenceOperation reference => TypeFacts.Holder(reference.Property),
            _ => null,
        };
        Use((field ?? throw Unknown(part)).ContainingType);
        return Names.Field(field);
    }
}
