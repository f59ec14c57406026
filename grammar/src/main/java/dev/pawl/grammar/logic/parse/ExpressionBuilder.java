package dev.pawl.grammar.logic.parse;

import dev.pawl.grammar.logic.Allowance;
import dev.pawl.grammar.logic.LanguageChoices;
import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.logic.tree.Expression.BinaryOperator;
import dev.pawl.grammar.logic.tree.Expression.UnaryOperator;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.logic.tree.TypeSpecification;
import dev.pawl.grammar.logic.tree.VariableBlock;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Position;
import java.math.BigInteger;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import org.antlr.v4.runtime.Token;
import org.antlr.v4.runtime.tree.TerminalNode;

/** The builder of expressions. */
final class ExpressionBuilder extends StructuredTextBaseVisitor<Expression> {

  private final String file;
  private final LanguageChoices choices;
  private final Consumer<Diagnostic> diagnostics;
  private final LiteralReader literals;
  private final TimeLiterals times;
  private final Map<String, Name> enabled = new LinkedHashMap<>();

  ExpressionBuilder(String file, LanguageChoices choices, Consumer<Diagnostic> diagnostics) {
    this.file = file;
    this.choices = choices;
    this.diagnostics = diagnostics;
    this.literals = new LiteralReader(diagnostics);
    this.times = new TimeLiterals(diagnostics);
  }

  /** The instances of which ENO was asked for since the last time this was asked, each with a variable for it. */
  List<VariableBlock> enabled() {
    List<VariableBlock> met = enabled.values().stream().map(name -> new VariableBlock(VariableBlock.Section.VAR, false,
        false, List.of(new VariableBlock.Variables(List.of(name.done()), Optional.empty(),
        new TypeSpecification.Named(new Name("BOOL", name.position())), Optional.empty())), name.position())).toList();
    enabled.clear();
    return met;
  }

  Name name(StructuredText.NameContext context) {
    return new Name(context.getText(), Places.of(file, context));
  }

  Name address(TerminalNode node) {
    return new Name(node.getText(), Places.of(file, node.getSymbol()));
  }

  @Override
  public Expression visitLiteralExpression(StructuredText.LiteralExpressionContext context) {
    return visit(context.literal());
  }

  @Override
  public Expression visitPathExpression(StructuredText.PathExpressionContext context) {
    return visit(context.path());
  }

  @Override
  public Expression visitDirectExpression(StructuredText.DirectExpressionContext context) {
    return new Expression.DirectReference(address(context.DIRECT_VARIABLE()));
  }

  @Override
  public Expression visitGroupedExpression(StructuredText.GroupedExpressionContext context) {
    return visit(context.expression());
  }

  @Override
  public Expression visitUnsupportedAssignment(StructuredText.UnsupportedAssignmentContext context) {
    return refuse(Places.of(file, context.ASSIGN().getSymbol()), ":= assigns and cannot stand inside an expression",
        "comparisons are written with =");
  }

  @Override
  public Expression visitUnsupportedReference(StructuredText.UnsupportedReferenceContext context) {
    boolean object = context.getText().regionMatches(true, 0, "THIS", 0, 4)
        || context.getText().regionMatches(true, 0, "SUPER", 0, 5);
    return refuse(Places.of(file, context), "references and objects (REF, NULL, THIS, SUPER) are not supported",
        object ? ForeignConstructs.OBJECTS : ForeignConstructs.REFERENCES);
  }

  @Override
  public Expression visitOperatorCall(StructuredText.OperatorCallContext context) {
    Position position = Places.of(file, context.operator);
    Name callee = new Name(context.operator.getText(), position);
    return new Expression.Call(new Expression.NameReference(callee), arguments(context.argument()), position);
  }

  @Override
  public Expression visitUnaryExpression(StructuredText.UnaryExpressionContext context) {
    UnaryOperator operator = switch (context.operator.getType()) {
      case StructuredText.MINUS -> UnaryOperator.MINUS;
      case StructuredText.PLUS -> UnaryOperator.PLUS;
      default -> UnaryOperator.NOT;
    };
    return new Expression.Unary(operator, visit(context.expression()), Places.of(file, context.operator));
  }

  @Override
  public Expression visitBinaryExpression(StructuredText.BinaryExpressionContext context) {
    return new Expression.Binary(binary(context.operator), visit(context.expression(0)), visit(context.expression(1)),
        Places.of(file, context.operator));
  }

  private static BinaryOperator binary(Token operator) {
    return switch (operator.getType()) {
      case StructuredText.POWER -> BinaryOperator.POWER;
      case StructuredText.TIMES -> BinaryOperator.MULTIPLY;
      case StructuredText.DIVIDE -> BinaryOperator.DIVIDE;
      case StructuredText.MOD -> BinaryOperator.MODULO;
      case StructuredText.PLUS -> BinaryOperator.ADD;
      case StructuredText.MINUS -> BinaryOperator.SUBTRACT;
      case StructuredText.LESS -> BinaryOperator.LESS;
      case StructuredText.GREATER -> BinaryOperator.GREATER;
      case StructuredText.AT_MOST -> BinaryOperator.AT_MOST;
      case StructuredText.AT_LEAST -> BinaryOperator.AT_LEAST;
      case StructuredText.EQUAL -> BinaryOperator.EQUAL;
      case StructuredText.NOT_EQUAL -> BinaryOperator.NOT_EQUAL;
      case StructuredText.XOR -> BinaryOperator.XOR;
      case StructuredText.OR -> BinaryOperator.OR;
      case StructuredText.AND_THEN -> BinaryOperator.AND_THEN;
      case StructuredText.OR_ELSE -> BinaryOperator.OR_ELSE;
      default -> BinaryOperator.AND;
    };
  }

  @Override
  public Expression visitPath(StructuredText.PathContext context) {
    Expression path = new Expression.NameReference(name(context.name()));
    for (StructuredText.SuffixContext suffix : context.suffix()) {
      path = extend(path, suffix);
    }
    return path;
  }

  private Expression extend(Expression owner, StructuredText.SuffixContext suffix) {
    if (suffix instanceof StructuredText.MemberSuffixContext member) {
      Name name = name(member.name());
      if (name.key().equals("ENO") && owner instanceof Expression.NameReference instance) {
        enabled.putIfAbsent(instance.name().key(), instance.name());
      }
      return new Expression.Member(owner, name);
    }
    if (suffix instanceof StructuredText.IndexSuffixContext index) {
      return new Expression.Indexed(owner, index.expression().stream().map(this::visit).toList(),
          Places.of(file, index));
    }
    if (suffix instanceof StructuredText.CallSuffixContext call) {
      return new Expression.Call(owner, arguments(call.argument()), owner.position());
    }
    if (suffix instanceof StructuredText.PartSuffixContext part) {
      return part(owner, part);
    }
    return refuse(Places.of(file, suffix), "dereferencing with ^ is not supported", ForeignConstructs.REFERENCES);
  }

  private Expression part(Expression owner, StructuredText.PartSuffixContext part) {
    Position position = Places.of(file, part);
    String text = part.getText().substring(1).toUpperCase(Locale.ROOT);
    int width = 1;
    if (text.startsWith("%")) {
      width = switch (text.charAt(1)) {
        case 'X' -> 1;
        case 'B' -> 8;
        case 'W' -> 16;
        case 'D' -> 32;
        default -> 0;
      };
      text = text.substring(2);
    }
    boolean told = owner instanceof Expression.IntegerLiteral;
    if (!told && (width == 0 || !text.matches("[0-9]{1,2}"))) {
      diagnostics.accept(Diagnostic.error(position, "'" + part.getText() + "' names no part of a bit string",
          "bits are written w.%X3 or w.3, bytes w.%B1, words w.%W0, double words w.%D1"));
      return owner;
    }
    if (told) {
      return owner;
    }
    return new Expression.Part(owner, width, Integer.parseInt(text), position);
  }

  /** The arguments of a call; an input with nothing behind its {@code :=} is none. */
  List<Expression.Argument> arguments(List<StructuredText.ArgumentContext> contexts) {
    return contexts.stream().filter(this::isGiven).map(this::argument).toList();
  }

  private boolean isGiven(StructuredText.ArgumentContext context) {
    boolean empty = context instanceof StructuredText.InputArgumentContext input && input.expression() == null;
    if (empty) {
      diagnostics.accept(Allowance.EMPTY_ARGUMENTS.found(choices, Places.of(file, context),
          "an input is given nothing here", "give it a value, or leave it out of the call"));
    }
    return !empty;
  }

  private Expression.Argument argument(StructuredText.ArgumentContext context) {
    if (context instanceof StructuredText.InputArgumentContext input) {
      return new Expression.Input(name(input.name()), visit(input.expression()));
    }
    if (context instanceof StructuredText.OutputArgumentContext output) {
      Optional<Expression> target = output.path() != null ? Optional.of(visit(output.path()))
          : Optional.ofNullable(output.DIRECT_VARIABLE()).map(node -> new Expression.DirectReference(address(node)));
      return new Expression.Output(name(output.name()), output.NOT() != null, target);
    }
    return new Expression.Positional(visit(((StructuredText.PositionalArgumentContext) context).expression()));
  }

  /** A case label: a literal, a name or an expression in brackets, with a sign or without. */
  Expression caseConstant(StructuredText.CaseConstantContext context) {
    Expression constant = context.literal() != null ? visit(context.literal())
        : !context.name().isEmpty() ? named(context.name()) : visit(context.expression());
    return context.MINUS() == null ? constant
        : new Expression.Unary(UnaryOperator.MINUS, constant, Places.of(file, context));
  }

  private Expression named(List<StructuredText.NameContext> names) {
    Expression first = new Expression.NameReference(name(names.get(0)));
    return names.size() < 2 ? first : new Expression.Member(first, name(names.get(1)));
  }

  @Override
  public Expression visitLiteral(StructuredText.LiteralContext context) {
    Token token = context.getStart();
    String text = token.getText();
    Position position = Places.of(file, token);
    return switch (token.getType()) {
      case StructuredText.TRUE -> new Expression.BooleanLiteral(true, position);
      case StructuredText.FALSE -> new Expression.BooleanLiteral(false, position);
      case StructuredText.REAL -> literals.real(Optional.empty(), text, position);
      case StructuredText.TYPED_NUMBER -> literals.typedNumber(typeWord(token), afterHash(text), position);
      case StructuredText.TYPED_STRING -> literals.string(Optional.of(typeWord(token)), afterHash(text), position);
      case StructuredText.TYPED_NAME -> qualified(token, position);
      case StructuredText.STRING_LITERAL, StructuredText.WIDE_STRING_LITERAL ->
          literals.string(Optional.empty(), text, position);
      case StructuredText.DURATION -> times.duration(text, position);
      case StructuredText.DATE_LITERAL -> times.date(text, position);
      case StructuredText.TIME_OF_DAY_LITERAL -> times.timeOfDay(text, position);
      case StructuredText.DATE_AND_TIME_LITERAL -> times.dateAndTime(text, position);
      default -> literals.integer(Optional.empty(), text, position);
    };
  }

  private Expression qualified(Token token, Position position) {
    Name type = typeWord(token);
    String member = afterHash(token.getText());
    boolean truth = member.equalsIgnoreCase("TRUE") || member.equalsIgnoreCase("FALSE");
    if (type.key().equals("BOOL") && truth) {
      return new Expression.BooleanLiteral(member.equalsIgnoreCase("TRUE"), position);
    }
    Position place = new Position(file, position.line(), position.column() + type.text().length() + 1, member.length());
    return new Expression.QualifiedName(type, new Name(member, place), position);
  }

  private Name typeWord(Token token) {
    String word = token.getText().substring(0, token.getText().indexOf('#'));
    return new Name(word, new Position(file, token.getLine(), token.getCharPositionInLine() + 1, word.length()));
  }

  private static String afterHash(String text) {
    return text.substring(text.indexOf('#') + 1);
  }

  private Expression refuse(Position position, String message, String hint) {
    diagnostics.accept(Diagnostic.error(position, message, hint));
    return new Expression.IntegerLiteral(Optional.empty(), BigInteger.ZERO, position);
  }
}
