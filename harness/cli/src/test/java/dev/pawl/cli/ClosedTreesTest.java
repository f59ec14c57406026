package dev.pawl.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption.DoNotIncludeTests;
import java.io.IOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import javax.tools.Diagnostic;
import javax.tools.DiagnosticCollector;
import javax.tools.JavaCompiler;
import javax.tools.JavaFileObject;
import javax.tools.SimpleJavaFileObject;
import javax.tools.StandardJavaFileManager;
import javax.tools.ToolProvider;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * A record that is added to a tree, with its method in the visitor, does not compile before every visitor has a case
 * for it; nor does one of a small family before everything that matches has an answer for it.
 */
class ClosedTreesTest {

  private static final JavaClasses CLASSES = new ClassFileImporter().withImportOption(new DoNotIncludeTests())
      .importPackages("dev.pawl");
  private static final Pattern FORGOTTEN =
      Pattern.compile("^(?:<anonymous )?([\\w.$]+)>? is not abstract and does not override abstract method "
          + "visit\\([\\w.]+[.]Scratch\\)");
  private static final Pattern NOT_ANSWERED =
      Pattern.compile("^method match in interface .* cannot be applied to given types");

  @ParameterizedTest
  @CsvSource({
      "dev.pawl.grammar.rules.model.BoolExpr, BoolExpr.State",
      "dev.pawl.grammar.rules.model.BoolExpr, BoolExpr.Moment",
      "dev.pawl.grammar.rules.model.NumExpr, NumExpr",
      "dev.pawl.grammar.rules.model.EnumExpr, EnumExpr",
      "dev.pawl.grammar.rules.model.Demand, Demand",
      "dev.pawl.grammar.rules.tree.Expression, Expression",
      "dev.pawl.grammar.rules.tree.Declaration, Declaration",
      "dev.pawl.grammar.rules.check.Declared, Declared",
      "dev.pawl.grammar.logic.model.Value, Value",
      "dev.pawl.grammar.logic.model.Step, Step",
      "dev.pawl.grammar.logic.tree.Expression, Expression",
      "dev.pawl.grammar.logic.tree.Statement, Statement",
      "dev.pawl.grammar.logic.tree.TypeSpecification, TypeSpecification",
      "dev.pawl.grammar.logic.drawn.tree.Element, Element",
      "dev.pawl.grammar.logic.drawn.tree.Body, Body",
      "dev.pawl.plant.ride.Device, Device",
      "dev.pawl.plant.scenario.Doing, Doing",
  })
  void aNewRecordNeedsACaseInEveryVisitor(String root, String parent) throws IOException {
    Set<String> visitors = CLASSES.stream().filter(it -> it.isAssignableTo(root + "$Visitor") && !it.isInterface())
        .map(JavaClass::getName).collect(Collectors.toCollection(TreeSet::new));
    assertFalse(visitors.isEmpty());

    List<JavaFileObject> sources = new ArrayList<>();
    sources.add(new Text(root, withScratchRecord(Files.readString(source(root)), parent)));
    for (String outermost : visitors.stream().map(it -> it.replaceFirst("\\$.*", "")).collect(Collectors.toSet())) {
      sources.add(new Text(outermost, Files.readString(source(outermost))));
    }
    Set<String> expected = visitors.stream().map(it -> it.replace('$', '.'))
        .collect(Collectors.toCollection(TreeSet::new));
    assertEquals(expected, classesWithoutTheCase(sources));
  }

  @ParameterizedTest
  @CsvSource({
      "dev.pawl.grammar.rules.model.ValueType, ",
      "dev.pawl.grammar.rules.model.Rule, Duty",
      "dev.pawl.grammar.rules.model.Demand, Stay",
      "dev.pawl.grammar.rules.model.Zone, Boundary",
      "dev.pawl.grammar.rules.model.Proof, Trial",
      "dev.pawl.grammar.rules.tree.Duty, ",
      "dev.pawl.grammar.rules.tree.Duty, Timing",
      "dev.pawl.grammar.rules.tree.Duty, Stay",
      "dev.pawl.grammar.rules.tree.ExampleStep, ",
      "dev.pawl.grammar.rules.tree.ForEach, Cases",
      "dev.pawl.grammar.rules.tree.ProofClause, ",
      "dev.pawl.grammar.rules.tree.RequirementClause, ",
      "dev.pawl.grammar.rules.tree.RuleClause, ",
      "dev.pawl.grammar.rules.tree.TypeName, ",
      "dev.pawl.grammar.rules.tree.ZoneClause, ",
      "dev.pawl.grammar.rules.check.Checked, ",
      "dev.pawl.grammar.logic.model.Place, Anchor",
      "dev.pawl.grammar.logic.tree.Expression, Argument",
      "dev.pawl.grammar.logic.tree.Initializer, ",
      "dev.pawl.grammar.logic.drawn.tree.Sequence, Condition",
      "dev.pawl.grammar.logic.check.Operand, ",
      "dev.pawl.trace.bindings.Conversion, ",
      "dev.pawl.mqtt.binding.PayloadForm, ",
      "dev.pawl.plant.scenario.Scenario, Trigger",
  })
  void aNewRecordNeedsAnAnswerInEveryMatch(String outermost, String inner) throws IOException {
    String family = inner == null ? outermost : outermost + "$" + inner;
    Set<String> asking = CLASSES.get(family).getMethods().stream().filter(it -> it.getName().equals("match"))
        .flatMap(it -> it.getCallsOfSelf().stream()).map(it -> outermost(it.getOriginOwner()))
        .filter(it -> !it.equals(outermost)).collect(Collectors.toCollection(TreeSet::new));
    assertFalse(asking.isEmpty());

    String parent = family.substring(family.lastIndexOf(inner == null ? '.' : '$') + 1);
    JavaFileObject widened = new Text(outermost, withScratchAnswer(Files.readString(source(outermost)), parent));
    assertTrue(compiled(List.of(widened)).stream().allMatch(ClosedTreesTest::isNotAnswered));
    for (String caller : asking) {
      JavaFileObject text = new Text(caller, Files.readString(source(caller)));
      assertTrue(compiled(List.of(text, widened)).stream().anyMatch(it -> it.getSource() == text && isNotAnswered(it)),
          caller);
    }
  }

  private static boolean isNotAnswered(Diagnostic<? extends JavaFileObject> problem) {
    return NOT_ANSWERED.matcher(problem.getMessage(Locale.ENGLISH)).find();
  }

  private static String outermost(JavaClass type) {
    return type.getName().replaceFirst("\\$.*", "");
  }

  /** With one more to answer for in the {@code match} of one family. */
  private static String withScratchAnswer(String source, String parent) {
    Matcher declared = Pattern.compile("interface " + parent + "\\b[^{]*\\{.*?<R> R match\\(([^;{]*)\\)",
        Pattern.DOTALL).matcher(source);
    assertTrue(declared.find());
    String answers = Pattern.compile("\\s+").splitAsStream(declared.group(1)).map(Pattern::quote)
        .collect(Collectors.joining("\\s+"));
    String widened = source.replaceAll("(<R> R match\\(" + answers + ")\\)", "$1, Function<Scratch, R> scratch)");
    return widened.substring(0, widened.lastIndexOf('}')) + "record Scratch() {}\n}\n";
  }

  private static String withScratchRecord(String source, String parent) {
    String visited = source.replaceFirst("interface Visitor<R> \\{", "$0 R visit(Scratch e);");
    return visited.substring(0, visited.lastIndexOf('}')) + "record Scratch() implements " + parent + " {}\n}\n";
  }

  private static List<Diagnostic<? extends JavaFileObject>> compiled(List<JavaFileObject> sources) throws IOException {
    JavaCompiler compiler = ToolProvider.getSystemJavaCompiler();
    DiagnosticCollector<JavaFileObject> found = new DiagnosticCollector<>();
    try (StandardJavaFileManager files = compiler.getStandardFileManager(null, Locale.ENGLISH, null)) {
      compiler.getTask(null, files, found, List.of("-proc:none", "-Xmaxerrs", "1000"), null, sources).call();
    }
    return found.getDiagnostics();
  }

  private static Set<String> classesWithoutTheCase(List<JavaFileObject> sources) throws IOException {
    Set<String> classes = new TreeSet<>();
    for (Diagnostic<? extends JavaFileObject> diagnostic : compiled(sources)) {
      Matcher forgotten = FORGOTTEN.matcher(diagnostic.getMessage(Locale.ENGLISH));
      if (forgotten.find()) {
        classes.add(forgotten.group(1).replace('$', '.'));
      }
    }
    return classes;
  }

  private static Path source(String outermost) throws IOException {
    try (Stream<Path> modules = Stream.concat(Stream.of(Path.of("../../grammar")), Files.list(Path.of("..")))) {
      return modules.map(it -> it.resolve("src/main/java").resolve(outermost.replace('.', '/') + ".java"))
          .filter(Files::exists).findFirst().orElseThrow();
    }
  }

  /** A source text in memory. */
  private static final class Text extends SimpleJavaFileObject {

    private final String text;

    Text(String name, String text) {
      super(URI.create("string:///" + name.replace('.', '/') + ".java"), Kind.SOURCE);
      this.text = text;
    }

    @Override
    public CharSequence getCharContent(boolean ignoreEncodingErrors) {
      return text;
    }
  }
}
