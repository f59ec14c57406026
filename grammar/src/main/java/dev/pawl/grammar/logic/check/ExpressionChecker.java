package dev.pawl.grammar.logic.check;

import dev.pawl.grammar.logic.model.Elementary;
import dev.pawl.grammar.logic.model.LogicType;
import dev.pawl.grammar.logic.model.Place;
import dev.pawl.grammar.logic.model.Value;
import dev.pawl.grammar.logic.model.Variable;
import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Diagnostics;
import dev.pawl.grammar.source.NearName;
import dev.pawl.grammar.source.Position;
import java.math.BigDecimal;
import java.util.List;
import java.util.Optional;

/** The checker of expressions: finds the type of each, and the computation it stands for. */
final class ExpressionChecker {

  private final Diagnostics diagnostics;
  private final Checking checking;
  private final OperatorChecker operators;

  ExpressionChecker(Diagnostics diagnostics, Checking checking) {
    this.diagnostics = diagnostics;
    this.checking = checking;
    this.operators = new OperatorChecker(diagnostics, checking);
  }

  /**
   * Checks an expression.
   *
   * @param wanted the type its surroundings want, which decides between enumerations that share a name
   */
  Operand check(Expression expression, Optional<LogicType> wanted) {
    return expression.accept(new Check(wanted));
  }

  private final class Check implements Expression.Visitor<Operand> {

    private final Optional<LogicType> wanted;

    Check(Optional<LogicType> wanted) {
      this.wanted = wanted;
    }

    @Override public Operand visit(Expression.IntegerLiteral e) { return integer(e); }
    @Override public Operand visit(Expression.RealLiteral e) { return real(e); }
    @Override public Operand visit(Expression.StringLiteral e) { return string(e); }
    @Override public Operand visit(Expression.QualifiedName e) { return qualified(e); }
    @Override public Operand visit(Expression.NameReference e) { return path(e, wanted); }
    @Override public Operand visit(Expression.DirectReference e) { return path(e, wanted); }
    @Override public Operand visit(Expression.Member e) { return path(e, wanted); }
    @Override public Operand visit(Expression.Indexed e) { return path(e, wanted); }
    @Override public Operand visit(Expression.Part e) { return part(e); }
    @Override public Operand visit(Expression.Call e) { return checking.calls().value(e, wanted); }
    @Override public Operand visit(Expression.Unary e) { return operators.unary(e, check(e.operand(), wanted)); }
    @Override public Operand visit(Expression.Binary e) { return binary(e, wanted); }

    @Override
    public Operand visit(Expression.Required e) {
      return typed(value(e.operand(), Elementary.valueOf(e.type()), e.what()), e.position());
    }

    @Override
    public Operand visit(Expression.BooleanLiteral e) {
      return typed(new Value.Constant(e.value() ? 1 : 0, Elementary.BOOL), e.position());
    }

    @Override
    public Operand visit(Expression.TimeLiteral e) {
      return typed(new Value.Constant(e.nanoseconds(), Elementary.valueOf(e.type())), e.position());
    }
  }

  /** Checks an expression and adapts it to a type. */
  Value value(Expression expression, LogicType wanted, String role) {
    return checking.adaptation().to(wanted, check(expression, Optional.of(wanted)), role);
  }

  private static Operand typed(Value value, Position position) {
    return new Operand.Typed(value, position);
  }

  /** Left to right; an enumeration on one side decides what a bare name on the other can be. */
  private Operand binary(Expression.Binary binary, Optional<LogicType> wanted) {
    boolean relation = binary.operator().ordinal() >= Expression.BinaryOperator.LESS.ordinal()
        && binary.operator().ordinal() <= Expression.BinaryOperator.NOT_EQUAL.ordinal();
    Optional<LogicType> hint = relation ? enumerationOf(binary.left()).or(() -> enumerationOf(binary.right())) : wanted;
    Operand left = check(binary.left(), hint);
    Operand right = check(binary.right(), hint);
    return operators.binary(binary, left, right, hint);
  }

  /** The enumeration of a variable, found without reporting anything. */
  private Optional<LogicType> enumerationOf(Expression expression) {
    if (expression instanceof Expression.NameReference reference) {
      return checking.scope().find(reference.name().key()).map(found -> found.variable().type())
          .filter(LogicType.EnumerationType.class::isInstance);
    }
    if (expression instanceof Expression.Member || expression instanceof Expression.Indexed) {
      return checking.quietly().find(expression).map(target -> target.place().type())
          .filter(LogicType.EnumerationType.class::isInstance);
    }
    return Optional.empty();
  }

  private Operand integer(Expression.IntegerLiteral literal) {
    Operand.Number number = new Operand.Number(new BigDecimal(literal.value()), true, literal.position());
    if (literal.type().isEmpty()) {
      return number;
    }
    return literalType(literal.type().get()).map(type -> {
      boolean fits = type.isNumber() || type.isBits();
      if (!fits) {
        diagnostics.error(literal.position(), "a number is no value of " + type.name());
      }
      return fits ? typed(checking.adaptation().to(type, number, "the literal"), literal.position())
          : wrong(literal.position());
    }).orElseGet(() -> wrong(literal.position()));
  }

  private Operand real(Expression.RealLiteral literal) {
    Operand.Number number = new Operand.Number(literal.value(), false, literal.position());
    if (literal.type().isEmpty()) {
      return number;
    }
    return literalType(literal.type().get())
        .map(type -> typed(checking.adaptation().to(type, number, "the literal"), literal.position()))
        .orElseGet(() -> wrong(literal.position()));
  }

  private Optional<Elementary> literalType(Name name) {
    Optional<Elementary> elementary = Elementary.named(name.text());
    if (elementary.isEmpty()) {
      Optional<NamedType> named = checking.types().find(name);
      elementary = named.flatMap(type -> Conversions.operand(type.type()));
      if (elementary.isEmpty()) {
        diagnostics.error(name.position(), name + " is no elementary type",
            NearName.hint(name.text(), List.of(Elementary.values()).stream().map(Elementary::name).toList())
                .orElse(""));
      }
    }
    return elementary;
  }

  private Operand string(Expression.StringLiteral literal) {
    String type = literal.type().map(Name::key).orElse(literal.wide() ? "WSTRING" : "STRING");
    boolean wide = type.startsWith("W");
    boolean character = type.equals("CHAR") || type.equals("WCHAR");
    if (!character && !type.equals("STRING") && !type.equals("WSTRING") || wide != literal.wide()) {
      diagnostics.error(literal.position(), "this string is no value of " + literal.type().map(Name::text).orElse(type),
          "STRING and CHAR are written with ', WSTRING and WCHAR with \"");
      return wrong(literal.position());
    }
    if (character && literal.value().length() != 1) {
      diagnostics.error(literal.position(), "a " + type + " is a single character, here are " + literal.value()
          .length());
      return wrong(literal.position());
    }
    return character ? typed(new Value.Constant(literal.value().charAt(0), wide ? Elementary.WCHAR : Elementary.CHAR),
        literal.position())
        : typed(new Value.Text(literal.value(), new LogicType.StringType(wide, Math.max(1, literal.value().length()))),
        literal.position());
  }

  private Operand qualified(Expression.QualifiedName qualified) {
    Optional<NamedType> named = checking.types().find(qualified.type());
    if (named.isEmpty() || named.get().type() instanceof LogicType.Unknown) {
      checking.types().named(qualified.type());
      return wrong(qualified.position());
    }
    if (!(named.get().type() instanceof LogicType.EnumerationType enumeration)) {
      diagnostics.error(qualified.type().position(), qualified.type() + " is no enumeration");
      return wrong(qualified.position());
    }
    Optional<LogicType.Member> member = enumeration.member(qualified.member().text());
    if (member.isEmpty()) {
      diagnostics.error(qualified.member().position(), enumeration.name() + " has no " + qualified.member(),
          NearName.hint(qualified.member().text(), enumeration.members().stream().map(LogicType.Member::name).toList())
              .orElse(""));
      return wrong(qualified.position());
    }
    return typed(new Value.Constant(member.get().value(), enumeration), qualified.position());
  }

  private Operand path(Expression expression, Optional<LogicType> wanted) {
    if (expression instanceof Expression.NameReference reference && checking.scope().find(reference.name().key())
        .isEmpty()) {
      Optional<Operand> member = member(reference.name(), wanted);
      if (member.isPresent()) {
        return member.get();
      }
    }
    Optional<LogicType.EnumerationType> hidden = hiddenMember(expression, wanted);
    if (hidden.isPresent()) {
      Name name = ((Expression.NameReference) expression).name();
      diagnostics.once(Diagnostic.error(name.position(), name + " is a variable here, which hides the value of "
          + hidden.get().name() + " of that name", "write the type before the value, as in " + hidden.get().name() + "#"
          + name + ", or give the variable another name"), "hidden values", "");
      return wrong(expression.position());
    }
    Optional<Expression.QualifiedName> qualified = qualified(expression);
    if (qualified.isPresent()) {
      return qualified(qualified.get());
    }
    Optional<Overlaps.Shared> shared = checking.paths().shared(expression);
    if (shared.isPresent()) {
      Place wide = Place.fixed(shared.get().wide().offset(), shared.get().wide().type());
      return typed(new Value.Part(new Value.Load(wide), shared.get().shift(), shared.get().type()),
          expression.position());
    }
    Optional<PathChecker.Target> target = checking.paths().find(expression);
    if (target.isEmpty()) {
      return wrong(expression.position());
    }
    if (target.get().place().type() instanceof LogicType.Unknown) {
      return wrong(expression.position());
    }
    if (!target.get().place().type().scalar()) {
      return new Operand.Whole(target.get().place(), expression.position());
    }
    return typed(target.get().constant().map(ExpressionChecker::known)
        .orElseGet(() -> new Value.Load(target.get().place())), expression.position());
  }

  /** The enumeration that is wanted, where a variable that cannot be its value has the name of one of its values. */
  private Optional<LogicType.EnumerationType> hiddenMember(Expression expression, Optional<LogicType> wanted) {
    return wanted.filter(LogicType.EnumerationType.class::isInstance).map(LogicType.EnumerationType.class::cast)
        .filter(type -> expression instanceof Expression.NameReference reference
            && type.member(reference.name().text()).isPresent()
            && checking.scope().find(reference.name().key()).map(found -> found.variable().type())
            .filter(found -> !(found instanceof LogicType.EnumerationType)
                && Conversions.operand(found).filter(Elementary::isInteger).isEmpty()).isPresent());
  }

  /** {@code Type.member}, where no variable has the name of the type. */
  private Optional<Expression.QualifiedName> qualified(Expression expression) {
    if (expression instanceof Expression.Member member && member.owner() instanceof Expression.NameReference owner
        && checking.scope().find(owner.name().key()).isEmpty()
        && checking.types().find(owner.name()).filter(named -> named.type() instanceof LogicType.EnumerationType)
            .isPresent()) {
      return Optional.of(new Expression.QualifiedName(owner.name(), member.name(), owner.position()));
    }
    return Optional.empty();
  }

  private static Value known(Variable constant) {
    String text = constant.initial().texts()[0];
    return text == null ? new Value.Constant(constant.initial().words()[0], constant.type())
        : new Value.Text(text, constant.type());
  }

  private Optional<Operand> member(Name name, Optional<LogicType> wanted) {
    List<LogicType.EnumerationType> owners = checking.types().withMember(name.key());
    if (owners.isEmpty()) {
      return Optional.empty();
    }
    Optional<LogicType.EnumerationType> chosen = owners.size() == 1 ? Optional.of(owners.get(0))
        : owners.stream().filter(owner -> wanted.isPresent() && wanted.get().equals(owner)).findFirst();
    if (chosen.isEmpty()) {
      diagnostics.error(name.position(), name + " belongs to " + owners.get(0).name() + " and to " + owners.get(1)
          .name(), "write " + owners.get(0).name() + "#" + name);
      return Optional.of(wrong(name.position()));
    }
    return Optional.of(typed(new Value.Constant(chosen.get().member(name.text()).orElseThrow().value(), chosen.get()),
        name.position()));
  }

  private Operand part(Expression.Part part) {
    Operand owner = check(part.owner(), Optional.empty());
    return BitPart.check(diagnostics, part, owner).map(found -> typed(
        checking.folder().fold(new Value.Part(((Operand.Typed) owner).value(), found.shift(), found.type())),
            part.position()))
        .orElseGet(() -> wrong(part.position()));
  }

  private static Operand wrong(Position position) {
    return new Operand.Wrong(position);
  }
}
