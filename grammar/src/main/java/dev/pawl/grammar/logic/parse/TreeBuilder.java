package dev.pawl.grammar.logic.parse;

import dev.pawl.grammar.logic.Allowance;
import dev.pawl.grammar.logic.LanguageChoices;
import dev.pawl.grammar.logic.tree.CompilationUnit;
import dev.pawl.grammar.logic.tree.Declaration;
import dev.pawl.grammar.logic.tree.Initializer;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.logic.tree.TypeSpecification;
import dev.pawl.grammar.logic.tree.VariableBlock;
import dev.pawl.grammar.logic.tree.VariableBlock.Section;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Consumer;
import org.antlr.v4.runtime.ParserRuleContext;

/** The builder of declarations, from a parse tree without errors. */
final class TreeBuilder {

  private final String file;
  private final LanguageChoices choices;
  private final Consumer<Diagnostic> diagnostics;
  private final Closings closings;
  private final ExpressionBuilder expressions;
  private final StatementBuilder statements;
  private final ConfigurationBuilder configurations;

  TreeBuilder(String file, LanguageChoices choices, Consumer<Diagnostic> diagnostics) {
    this.file = file;
    this.choices = choices;
    this.diagnostics = diagnostics;
    this.closings = new Closings(file, choices, diagnostics);
    this.expressions = new ExpressionBuilder(file, choices, diagnostics);
    this.statements = new StatementBuilder(file, choices, diagnostics, expressions, closings);
    this.configurations = new ConfigurationBuilder(file, diagnostics, expressions, this::blocks);
  }

  CompilationUnit build(StructuredText.CompilationUnitContext context) {
    List<Declaration> declarations = new ArrayList<>();
    context.declaration().forEach(declaration -> add(declaration, declarations));
    return new CompilationUnit(file, declarations);
  }

  private void add(StructuredText.DeclarationContext context, List<Declaration> declarations) {
    if (context instanceof StructuredText.TypeBlockContext block) {
      for (StructuredText.TypeDeclarationContext type : block.typeDeclaration()) {
        closings.check(type.closing());
        declarations.add(new Declaration.TypeDeclaration(expressions.name(type.name()),
            specification(type.typeSpecification()), Optional.ofNullable(type.initializer()).map(this::initializer)));
      }
    } else if (context instanceof StructuredText.GlobalsContext globals) {
      block(globals.variableBlock()).ifPresent(block -> declarations.add(new Declaration.Globals(block)));
    } else if (context instanceof StructuredText.ProgramContext program) {
      declarations.add(new Declaration.Unit(Declaration.Kind.PROGRAM, expressions.name(program.name()),
          Optional.empty(), own(program.variableBlock(), declarations), statements.list(program.statementList()),
          statements.actions(), closings.end(program.endProgram())).with(expressions.enabled()));
    } else if (context instanceof StructuredText.FunctionContext function) {
      declarations.add(new Declaration.Unit(Declaration.Kind.FUNCTION, expressions.name(function.name()),
          Optional.ofNullable(function.typeSpecification()).map(this::specification),
          own(function.variableBlock(), declarations),
          statements.list(function.statementList()), statements.actions(), closings.end(function.endFunction()))
          .with(expressions.enabled()));
    } else if (context instanceof StructuredText.FunctionBlockContext functionBlock) {
      refuseObjects(functionBlock);
      declarations.add(new Declaration.Unit(Declaration.Kind.FUNCTION_BLOCK, expressions.name(functionBlock.name()),
          Optional.empty(), own(functionBlock.variableBlock(), declarations),
          statements.list(functionBlock.statementList()),
          statements.actions(), closings.end(functionBlock.endFunctionBlock())).with(expressions.enabled()));
    } else if (context instanceof StructuredText.ConfigurationContext configuration) {
      declarations.add(configurations.configuration(configuration));
    } else {
      refuse(context);
    }
  }

  private void refuseObjects(StructuredText.FunctionBlockContext context) {
    context.extension().forEach(extension -> unsupported(extension, extension.getStart().getText()
        .toUpperCase(Locale.ROOT), ForeignConstructs.OBJECTS));
    context.method().forEach(method -> unsupported(method, "METHOD", ForeignConstructs.OBJECTS));
  }

  private void refuse(StructuredText.DeclarationContext context) {
    String construct = context.getStart().getText().toUpperCase(Locale.ROOT);
    String hint = switch (construct) {
      case "CLASS", "INTERFACE" -> ForeignConstructs.OBJECTS;
      case "USING" -> "leave it out, and give the files that declare what it makes known";
      default -> "declare what is in it outside of it, and name that without what stands before the point";
    };
    unsupported(context, construct, hint);
  }

  private void unsupported(ParserRuleContext context, String construct, String hint) {
    diagnostics.accept(Diagnostic.error(Places.of(file, context.getStart()), construct + " is not supported", hint));
  }

  private List<VariableBlock> blocks(List<StructuredText.VariableBlockContext> contexts) {
    return contexts.stream().flatMap(context -> block(context).stream()).toList();
  }

  /** The variables of a unit; globals among them are declared before it. */
  private List<VariableBlock> own(List<StructuredText.VariableBlockContext> contexts, List<Declaration> declarations) {
    List<VariableBlock> own = new ArrayList<>();
    for (VariableBlock block : blocks(contexts)) {
      if (block.section() == Section.VAR_GLOBAL) {
        diagnostics.accept(Allowance.INNER_GLOBALS.found(choices, block.position(),
            "VAR_GLOBAL belongs outside of any PROGRAM, FUNCTION or FUNCTION_BLOCK", "move it to the top of the file"));
        declarations.add(new Declaration.Globals(block));
      } else {
        own.add(block);
      }
    }
    return own;
  }

  private Optional<VariableBlock> block(StructuredText.VariableBlockContext context) {
    if (!(context instanceof StructuredText.VariablesContext variables)) {
      unsupported(context, context.getStart().getText().toUpperCase(Locale.ROOT),
          "leave it out; state addresses and first values where the variables are declared");
      return Optional.empty();
    }
    Section section = Section.valueOf(variables.section().getText().toUpperCase(Locale.ROOT));
    List<VariableBlock.Variables> declarations = variables.variableDeclaration().stream().map(this::variables).toList();
    return Optional.of(new VariableBlock(section, !variables.CONSTANT().isEmpty(), !variables.RETAIN().isEmpty(),
        declarations, Places.of(file, variables.getStart())));
  }

  private VariableBlock.Variables variables(StructuredText.VariableDeclarationContext context) {
    Optional<VariableBlock.Edge> edge = context.R_EDGE() != null ? Optional.of(VariableBlock.Edge.R_EDGE)
        : Optional.ofNullable(context.F_EDGE()).map(word -> VariableBlock.Edge.F_EDGE);
    Optional<Name> address = Optional.ofNullable(context.DIRECT_VARIABLE()).map(expressions::address);
    return new VariableBlock.Variables(names(context.name()), address, specification(context.typeSpecification()),
        edge, Optional.ofNullable(context.initializer()).map(this::initializer));
  }

  private List<Name> names(List<StructuredText.NameContext> contexts) {
    return contexts.stream().map(expressions::name).toList();
  }

  private TypeSpecification specification(StructuredText.TypeSpecificationContext context) {
    Position position = Places.of(file, context);
    if (context instanceof StructuredText.NamedTypeContext named) {
      return new TypeSpecification.Named(new Name(named.getText(), position));
    }
    if (context instanceof StructuredText.SizedStringTypeContext string) {
      return new TypeSpecification.SizedString(expressions.name(string.name()), expressions.visit(string.expression()),
          position);
    }
    if (context instanceof StructuredText.RoundStringTypeContext string) {
      diagnostics.accept(Allowance.ROUND_STRING_LENGTHS.found(choices, position,
          "the length of a STRING is given in round brackets", "write it in square ones, as in STRING[20]"));
      return new TypeSpecification.SizedString(expressions.name(string.name()), expressions.visit(string.expression()),
          position);
    }
    if (context instanceof StructuredText.SubrangeTypeContext subrange) {
      return new TypeSpecification.Subrange(expressions.name(subrange.name()),
          expressions.visit(subrange.expression(0)), expressions.visit(subrange.expression(1)), position);
    }
    if (context instanceof StructuredText.EnumerationTypeContext enumeration) {
      if (enumeration.name().stream().anyMatch(name -> name.getStart().getTokenIndex()
          > enumeration.LEFT_PAREN().getSymbol().getTokenIndex())) {
        StructuredText.NameContext behind = enumeration.name(enumeration.name().size() - 1);
        diagnostics.accept(Allowance.BASE_TYPES_BEHIND.found(choices, Places.of(file, behind.getStart()),
            "the type of an enumeration stands behind its members", "write it before them, as in INT (a, b)"));
      }
      return new TypeSpecification.Enumeration(enumeration.name().stream().findFirst().map(expressions::name),
          enumeration.enumerationMember().stream().map(this::member).toList(), position);
    }
    if (context instanceof StructuredText.ArrayTypeContext array) {
      return new TypeSpecification.ArrayOf(array.range().stream().map(this::bounds).toList(),
          specification(array.typeSpecification()), position);
    }
    if (context instanceof StructuredText.OpenArrayTypeContext array) {
      return new TypeSpecification.OpenArray(array.TIMES().size(), specification(array.typeSpecification()), position);
    }
    if (context instanceof StructuredText.StructureTypeContext structure) {
      return structure(structure, position);
    }
    unsupported(context, "REF_TO", ForeignConstructs.REFERENCES);
    return new TypeSpecification.Unreadable(position);
  }

  private TypeSpecification structure(StructuredText.StructureTypeContext context, Position position) {
    if (context.OVERLAP() != null) {
      unsupported(context, "OVERLAP", "use a bit string and its parts, such as w.%B0");
    }
    List<TypeSpecification.Field> fields = new ArrayList<>();
    for (StructuredText.StructureFieldContext field : context.structureField()) {
      if (field.AT() != null) {
        unsupported(field, "AT inside a STRUCT", "leave the address out");
      }
      for (StructuredText.NameContext name : field.name()) {
        fields.add(new TypeSpecification.Field(expressions.name(name), specification(field.typeSpecification()),
            Optional.ofNullable(field.initializer()).map(this::initializer)));
      }
    }
    return new TypeSpecification.Structure(fields, position);
  }

  private TypeSpecification.Member member(StructuredText.EnumerationMemberContext context) {
    return new TypeSpecification.Member(expressions.name(context.name()),
        Optional.ofNullable(context.expression()).map(expressions::visit));
  }

  private TypeSpecification.Bounds bounds(StructuredText.RangeContext context) {
    return new TypeSpecification.Bounds(expressions.visit(context.expression(0)),
        expressions.visit(context.expression(1)));
  }

  private Initializer initializer(StructuredText.InitializerContext context) {
    if (context instanceof StructuredText.ArrayInitializerContext array) {
      return new Initializer.Elements(array.elementInitializer().stream().map(this::element).toList(),
          Places.of(file, array));
    }
    if (context instanceof StructuredText.StructureInitializerContext structure) {
      return new Initializer.Fields(structure.fieldInitializer().stream().map(field ->
          new Initializer.FieldValue(expressions.name(field.name()), initializer(field.initializer()))).toList(),
          Places.of(file, structure));
    }
    return new Initializer.Value(expressions.visit(((StructuredText.ValueInitializerContext) context).expression()));
  }

  private Initializer.Repeated element(StructuredText.ElementInitializerContext context) {
    if (context instanceof StructuredText.RepeatedElementContext repeated) {
      return new Initializer.Repeated(count(repeated), Optional.ofNullable(repeated.initializer())
          .map(this::initializer));
    }
    return new Initializer.Repeated(1, Optional.of(initializer(((StructuredText.SingleElementContext) context)
        .initializer())));
  }

  private int count(StructuredText.RepeatedElementContext context) {
    String digits = context.INTEGER().getText().replace("_", "");
    if (digits.length() > 8) {
      diagnostics.accept(Diagnostic.error(Places.of(file, context), "'" + digits + "' is too large a repetition", ""));
      return 1;
    }
    return Integer.parseInt(digits);
  }
}
