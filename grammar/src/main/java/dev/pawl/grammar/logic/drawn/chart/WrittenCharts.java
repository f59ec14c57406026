package dev.pawl.grammar.logic.drawn.chart;

import dev.pawl.grammar.logic.LanguageChoices;
import dev.pawl.grammar.logic.drawn.Legend;
import dev.pawl.grammar.logic.drawn.Shown;
import dev.pawl.grammar.logic.drawn.intake.Project;
import dev.pawl.grammar.logic.drawn.network.Hidden;
import dev.pawl.grammar.logic.drawn.network.Surroundings;
import dev.pawl.grammar.logic.drawn.tree.Sequence;
import dev.pawl.grammar.logic.drawn.tree.Sequence.Association;
import dev.pawl.grammar.logic.drawn.tree.Sequence.Qualifier;
import dev.pawl.grammar.logic.parse.Fragment;
import dev.pawl.grammar.logic.tree.CompilationUnit;
import dev.pawl.grammar.logic.tree.Declaration;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.logic.tree.Statement;
import dev.pawl.grammar.logic.tree.VariableBlock;
import dev.pawl.grammar.source.Diagnostic;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;

/** Charts that were written, as STEP, TRANSITION and ACTION: they become the same statements as drawn ones. */
public final class WrittenCharts {

  private final LanguageChoices choices;
  private final Consumer<Diagnostic> diagnostics;

  private WrittenCharts(LanguageChoices choices, Consumer<Diagnostic> diagnostics) {
    this.choices = choices;
    this.diagnostics = diagnostics;
  }

  /** The source with its charts as statements. */
  public static CompilationUnit lowered(CompilationUnit source, LanguageChoices choices,
      Consumer<Diagnostic> diagnostics) {
    WrittenCharts charts = new WrittenCharts(choices, diagnostics);
    return new CompilationUnit(source.file(), source.declarations().stream().map(declaration ->
        declaration instanceof Declaration.Unit unit && unit.body().stream().anyMatch(WrittenCharts::isPart)
        ? charts.unit(unit) : declaration).toList());
  }

  private static boolean isPart(Statement statement) {
    return statement instanceof Statement.ChartStep || statement instanceof Statement.ChartTransition;
  }

  private void error(Name name, String message, String hint) {
    diagnostics.accept(Diagnostic.error(name.position(), message, hint));
  }

  private Declaration.Unit unit(Declaration.Unit unit) {
    List<Sequence.Step> steps = new ArrayList<>();
    List<Sequence.Transition> transitions = new ArrayList<>();
    for (Statement statement : unit.body()) {
      if (statement instanceof Statement.ChartStep step) {
        steps.add(new Sequence.Step(step.name(), step.initial(), step.controls().stream().map(this::association)
            .toList()));
      } else if (statement instanceof Statement.ChartTransition transition) {
        transitions.add(new Sequence.Transition(transition.name(), transition.priority(), keys(transition.from()),
            keys(transition.to()), new Sequence.Read(transition.condition()), false, transition.position()));
      } else {
        diagnostics.accept(Diagnostic.error(statement.position(),
            "beside steps and transitions there are no statements",
            "write it in an ACTION"));
      }
    }
    if (unit.kind() == Declaration.Kind.FUNCTION) {
      error(unit.name(), "a FUNCTION keeps nothing from call to call, so it has no steps", "make it a FUNCTION_BLOCK");
    }
    Hidden hidden = new Hidden();
    Project.Drawing drawing = new Project.Drawing(unit.kind(), unit.name(), unit.returns(), unit.blocks(), List.of(),
        List.of(), unit.name().position());
    Surroundings around = new Surroundings(drawing, Map.of(), Map.of(), hidden, new Legend(), Shown.nothing(),
        choices, diagnostics);
    List<Sequence.Action> actions = unit.actions().stream().map(action -> new Sequence.Action(action.name(), List.of()))
        .toList();
    List<Statement> body = ChartTranslator.translate(new Sequence(steps, transitions, actions, List.of(),
        unit.name().position()), around, action -> unit.actions().stream()
            .filter(it -> it.name().key().equals(action.name().key())).findFirst().orElseThrow().body());
    List<VariableBlock> blocks = new ArrayList<>(unit.blocks());
    hidden.block(unit.name().position()).ifPresent(blocks::add);
    return new Declaration.Unit(unit.kind(), unit.name(), unit.returns(), blocks, body, unit.end());
  }

  private static List<String> keys(List<Name> names) {
    return names.stream().map(Name::key).toList();
  }

  private Association association(Statement.Control control) {
    Optional<Qualifier> qualifier = control.qualifier().map(Name::text).or(() -> Optional.of("N"))
        .flatMap(Qualifier::named);
    if (qualifier.isEmpty()) {
      error(control.qualifier().orElseThrow(), "'" + control.qualifier().orElseThrow()
          + "' is no qualifier of an action",
          "one of N, R, S, L, D, P, P0, P1, SD, DS, SL");
    }
    return new Association(qualifier.orElse(Qualifier.N), control.time(), new Fragment(control.target().text(),
        control.target().position()), control.target().position());
  }
}
