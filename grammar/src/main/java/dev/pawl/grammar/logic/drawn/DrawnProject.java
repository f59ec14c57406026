package dev.pawl.grammar.logic.drawn;

import dev.pawl.grammar.logic.LanguageChoices;
import dev.pawl.grammar.logic.drawn.chart.ChartTranslator;
import dev.pawl.grammar.logic.drawn.intake.NamespaceReader;
import dev.pawl.grammar.logic.drawn.intake.Project;
import dev.pawl.grammar.logic.drawn.intake.ProjectReader;
import dev.pawl.grammar.logic.drawn.network.Hidden;
import dev.pawl.grammar.logic.drawn.network.NetworkTranslator;
import dev.pawl.grammar.logic.drawn.network.Surroundings;
import dev.pawl.grammar.logic.drawn.tree.Body;
import dev.pawl.grammar.logic.drawn.xml.XmlNode;
import dev.pawl.grammar.logic.drawn.xml.XmlText;
import dev.pawl.grammar.logic.parse.SourceParser;
import dev.pawl.grammar.logic.tree.CompilationUnit;
import dev.pawl.grammar.logic.tree.Declaration;
import dev.pawl.grammar.logic.tree.Statement;
import dev.pawl.grammar.logic.tree.TypeSpecification;
import dev.pawl.grammar.logic.tree.VariableBlock;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Source;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.function.Consumer;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/**
 * A project in an exchange format, as the syntax tree of the Structured Text that means the same.
 *
 * @param unit everything that it declares
 * @param legend what is drawn at which place
 */
public record DrawnProject(CompilationUnit unit, Legend legend) {

  private static final Pattern MISPLACED = Pattern.compile("<.*> has no place in <.*>");
  private static final Pattern LOOSE = Pattern.compile("nothing is connected to .*");

  /** What is told once however often it is found, though each element has a message of its own. */
  private static final List<Pattern> ONCE = List.of(MISPLACED, LOOSE,
      Pattern.compile("'.*' is no name|the character U\\+.* does not belong .*|a name has .*"),
      Pattern.compile("<.*> lacks its .*"), Pattern.compile("an element of the kind .*"),
      Pattern.compile("the action .* of this step stands in additional data .*"),
      Pattern.compile("an input or output is drawn without .*"));

  /** Whether a source is such a project, rather than Structured Text. */
  public static boolean is(Source source) {
    return XmlText.is(source);
  }

  /** Whether the first element of a source is that of an exchange format; other XML is something else. */
  public static boolean isExchanged(Source source) {
    return XmlText.root(source).map(root -> ProjectReader.reads(root) || NamespaceReader.reads(root)).orElse(true);
  }

  /** What is one cause in what is drawn: there each place has its own message, but for some. */
  public static String cause(Diagnostic found) {
    return ONCE.stream().filter(it -> it.matcher(found.message()).matches()).findFirst().map(Pattern::pattern)
        .orElseGet(() -> SourceParser.drawnCause(found));
  }

  /**
   * Reads a project; where its elements do not stand as the format has them, nothing is said of missing wires.
   *
   * @param shown some of it, to be seen
   * @param diagnostics is told of everything wrong with it
   */
  public static DrawnProject read(Source source, LanguageChoices choices, Shown shown,
      Consumer<Diagnostic> diagnostics) {
    Legend legend = new Legend();
    AtomicBoolean misplaced = new AtomicBoolean();
    Optional<Project> project = XmlText.read(source, diagnostics).flatMap(root -> project(root, choices, found -> {
      misplaced.compareAndSet(false, MISPLACED.matcher(found.message()).matches());
      diagnostics.accept(found);
    }));
    Consumer<Diagnostic> of = found -> {
      if (!misplaced.get() || !LOOSE.matcher(found.message()).matches()) {
        diagnostics.accept(found);
      }
    };
    List<Declaration> declarations = new ArrayList<>(project.map(Project::declarations).orElse(List.of()));
    DrawnWords.list(declarations, legend);
    Map<String, Project.Drawing> units = new HashMap<>();
    project.ifPresent(it -> it.units().forEach(unit -> units.putIfAbsent(unit.name().key(), unit)));
    Map<String, TypeSpecification> globals = new HashMap<>();
    declarations.stream().flatMap(DrawnProject::globals).flatMap(block -> block.declarations().stream())
        .forEach(variables -> variables.names().forEach(name -> globals.put(name.key(), variables.specification())));
    project.ifPresent(it -> it.units().forEach(unit -> declarations.add(unit(unit, new Surroundings(unit, units,
        globals, new Hidden(), legend, shown, choices, of)))));
    return new DrawnProject(new CompilationUnit(source.name(), declarations), legend);
  }

  private static Optional<Project> project(XmlNode root, LanguageChoices choices,
      Consumer<Diagnostic> diagnostics) {
    if (ProjectReader.reads(root)) {
      return Optional.of(ProjectReader.read(root, choices, diagnostics));
    }
    if (NamespaceReader.reads(root)) {
      return Optional.of(NamespaceReader.read(root, choices, diagnostics));
    }
    diagnostics.accept(Diagnostic.error(root.position(), "this XML is no project in an exchange format that is read: <"
        + root.name() + "> of namespace '" + root.namespace() + "'",
        "export the project in the open exchange format, IEC 61131-10 or the one before it"));
    return Optional.empty();
  }

  private static Stream<VariableBlock> globals(Declaration declaration) {
    if (declaration instanceof Declaration.Globals globals) {
      return Stream.of(globals.block());
    }
    return declaration instanceof Declaration.Configuration configuration ? Stream.concat(
        configuration.globals().stream(), configuration.resources().stream().flatMap(it -> it.globals().stream()))
        : Stream.of();
  }

  private static Declaration unit(Project.Drawing unit, Surroundings around) {
    DrawnWords.list(unit.name().text(), unit.blocks(), around.legend());
    Hidden hidden = around.hidden();
    Consumer<Diagnostic> diagnostics = around.diagnostics();
    List<Statement> body = statements(unit.bodies(), around);
    if (unit.kind() == Declaration.Kind.FUNCTION) {
      hidden.places().forEach(position -> diagnostics.accept(Diagnostic.error(position,
          "this has to remember something, but a FUNCTION keeps nothing from call to call",
              "make it a FUNCTION_BLOCK")));
    }
    List<VariableBlock> blocks = new ArrayList<>(unit.blocks());
    boolean charted = unit.bodies().stream().anyMatch(Body.Chart.class::isInstance);
    List<Declaration.Action> actions = charted ? List.of() : unit.actions().stream().map(action ->
        new Declaration.Action(action.name(), statements(action.bodies(), around.within(action.name())))).toList();
    around.writers().warn(around.legend(), diagnostics);
    hidden.block(unit.position()).ifPresent(blocks::add);
    return new Declaration.Unit(unit.kind(), unit.name(), unit.returns(), blocks, body, actions, unit.position());
  }

  /** The statements of all sheets of a body. */
  private static List<Statement> statements(List<Body> bodies, Surroundings around) {
    List<Statement> statements = new ArrayList<>();
    for (Body body : bodies) {
      statements.addAll(body.accept(new Body.Visitor<List<Statement>>() {
        @Override
        public List<Statement> visit(Body.Written e) {
          List<Statement> written = SourceParser.statements(e.text(), around.choices(), around.diagnostics())
              .orElse(List.of());
          around.writers().note(written);
          DrawnWords.list(around.unit().name().text(), e.text(), around.legend());
          return written;
        }

        @Override
        public List<Statement> visit(Body.Networks e) {
          return NetworkTranslator.translate(e.elements(), around);
        }

        @Override
        public List<Statement> visit(Body.Chart e) {
          return ChartTranslator.translate(e.sequence(), around, action -> statements(action.bodies(),
              around.within(action.name())));
        }
      }));
    }
    return statements;
  }
}
