package dev.pawl.grammar.logic.drawn.network;

import dev.pawl.grammar.logic.LanguageChoices;
import dev.pawl.grammar.logic.drawn.Legend;
import dev.pawl.grammar.logic.drawn.Shown;
import dev.pawl.grammar.logic.drawn.intake.Project;
import dev.pawl.grammar.logic.parse.Fragment;
import dev.pawl.grammar.logic.parse.SourceParser;
import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.logic.tree.Initializer;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.logic.tree.Statement;
import dev.pawl.grammar.logic.tree.TypeSpecification;
import dev.pawl.grammar.logic.tree.VariableBlock;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Position;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;

/**
 * What a unit's drawings need to know of what is around them.
 *
 * @param unit whose body is drawn
 * @param units all units of the project, by their names in upper case
 * @param globals what its global variables were declared as, by their names in upper case
 * @param hidden takes the unit's own memory
 * @param writers is told what writes which variable
 * @param action the action whose body is drawn; empty in the unit's own
 * @param shown takes what is to be seen
 */
public record Surroundings(Project.Drawing unit, Map<String, Project.Drawing> units,
    Map<String, TypeSpecification> globals, Hidden hidden, Legend legend, Writers writers,
    Optional<Name> action, Shown shown, LanguageChoices choices, Consumer<Diagnostic> diagnostics) {

  /** The surroundings of the unit's own body. */
  public Surroundings(Project.Drawing unit, Map<String, Project.Drawing> units,
      Map<String, TypeSpecification> globals, Hidden hidden, Legend legend, Shown shown, LanguageChoices choices,
      Consumer<Diagnostic> diagnostics) {
    this(unit, units, globals, hidden, legend, new Writers(unit.name().text()), Optional.empty(), shown, choices,
        diagnostics);
  }

  /** Those of an action's body. */
  public Surroundings within(Name of) {
    return new Surroundings(unit, units, globals, hidden, legend, writers, Optional.of(of), shown, choices,
        diagnostics);
  }

  /** Whether the unit declares a variable of a name. */
  public boolean declares(Name name) {
    return unit.blocks().stream().flatMap(block -> block.declarations().stream())
        .flatMap(variables -> variables.names().stream()).anyMatch(it -> it.key().equals(name.key()));
  }

  /** What a variable of the unit, or a global one, was declared as, by its name in upper case. */
  Map<String, TypeSpecification> types() {
    Map<String, TypeSpecification> types = new HashMap<>(globals);
    for (VariableBlock block : unit.blocks()) {
      for (VariableBlock.Variables variables : block.declarations()) {
        variables.names().forEach(name -> types.put(name.key(), variables.specification()));
      }
    }
    return types;
  }

  /** Variables of the unit that may be others under another name. */
  Set<String> shared() {
    Set<String> shared = new HashSet<>();
    for (VariableBlock block : unit.blocks()) {
      for (VariableBlock.Variables variables : block.declarations()) {
        if (block.section() == VariableBlock.Section.VAR_IN_OUT || variables.address().isPresent()) {
          variables.names().forEach(name -> shared.add(name.key()));
        }
      }
    }
    return shared;
  }

  Optional<Project.Drawing> unit(String name) {
    return Optional.ofNullable(units.get(name.toUpperCase(Locale.ROOT)));
  }

  /** Keeps a value where it can be seen, in the instances of the unit that are marked for that. */
  public List<Statement> seen(Name name, Expression value, Position position) {
    Name mark = shown.mark(unit.name().text(), position, it -> hidden.declare(it, new TypeSpecification.Named(
        new Name("BOOL", position)), Optional.of(new Initializer.Value(Terms.truth(true, position)))));
    return Terms.when(Terms.name(mark), List.of(new Statement.Wire(name, value, Optional.empty(), position, true)),
        position);
  }

  public void error(Position position, String message, String hint) {
    diagnostics.accept(Diagnostic.error(position, message, hint));
  }

  /** An expression; FALSE after a message. */
  public Expression expression(Fragment fragment, String what) {
    if (fragment.text().isBlank()) {
      error(fragment.start(), what + " is empty", "");
      return Terms.truth(false, fragment.start());
    }
    return SourceParser.expression(fragment, choices, diagnostics)
        .orElseGet(() -> Terms.truth(false, fragment.start()));
  }

  /** A variable that is written; nothing after a message. */
  public Optional<Expression> target(Fragment fragment, String what) {
    Expression expression = expression(fragment, what);
    boolean path = expression instanceof Expression.NameReference || expression instanceof Expression.Member
        || expression instanceof Expression.Indexed || expression instanceof Expression.Part
        || expression instanceof Expression.DirectReference;
    if (!path && !fragment.text().isBlank() && !(expression instanceof Expression.BooleanLiteral)) {
      error(fragment.start(), "'" + fragment.text().strip() + "' is no variable, so nothing can be written to it", "");
    }
    return path ? Optional.of(expression) : Optional.empty();
  }

}
