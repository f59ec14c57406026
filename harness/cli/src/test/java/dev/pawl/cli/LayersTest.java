package dev.pawl.cli;

import static com.tngtech.archunit.core.domain.JavaCall.Predicates.target;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.core.domain.properties.HasName.Predicates.nameMatching;
import static com.tngtech.archunit.core.domain.properties.HasOwner.Predicates.With.owner;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.Architectures.layeredArchitecture;
import static com.tngtech.archunit.library.GeneralCodingRules.ACCESS_STANDARD_STREAMS;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaCall;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption.DoNotIncludeTests;
import com.tngtech.archunit.lang.ArchRule;
import java.util.Arrays;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The layers of the design, as a test: which way dependencies run, and who may know of the world outside. */
class LayersTest {

  private static final JavaClasses CLASSES = new ClassFileImporter().withImportOption(new DoNotIncludeTests())
      .importPackages("dev.pawl");

  private static final ArchRule DEPENDENCIES_RUN_ONE_WAY = layeredArchitecture().consideringOnlyDependenciesInLayers()
      .layer("grammar").definedBy("dev.pawl.grammar..")
      .layer("engine").definedBy("dev.pawl.engine..")
      .optionalLayer("trace").definedBy("dev.pawl.trace..")
      .optionalLayer("logic").definedBy("dev.pawl.logic..")
      .optionalLayer("plant").definedBy("dev.pawl.plant..")
      .optionalLayer("demo").definedBy("dev.pawl.demo..")
      .optionalLayer("broker").definedBy("dev.pawl.broker..")
      .optionalLayer("mqtt").definedBy("dev.pawl.mqtt..")
      .layer("report").definedBy("dev.pawl.report..")
      .layer("run").definedBy("dev.pawl.run..")
      .layer("junit").definedBy("dev.pawl.junit..")
      .layer("editor").definedBy("dev.pawl.editor..")
      .layer("cli").definedBy("dev.pawl.cli..")
      .whereLayer("grammar").mayNotAccessAnyLayer()
      .whereLayer("engine").mayOnlyAccessLayers("grammar")
      .whereLayer("trace").mayOnlyAccessLayers("engine", "grammar")
      .whereLayer("logic").mayOnlyAccessLayers("engine", "grammar")
      .whereLayer("plant").mayOnlyAccessLayers("engine", "grammar")
      .whereLayer("demo").mayOnlyAccessLayers("plant", "engine", "grammar")
      .whereLayer("demo").mayOnlyBeAccessedByLayers("cli")
      .whereLayer("broker").mayNotAccessAnyLayer()
      .whereLayer("broker").mayOnlyBeAccessedByLayers("mqtt")
      .whereLayer("mqtt").mayOnlyAccessLayers("report", "broker", "trace", "logic", "engine", "grammar")
      .whereLayer("report").mayOnlyAccessLayers("trace", "logic", "engine", "grammar")
      .whereLayer("run").mayOnlyBeAccessedByLayers("junit", "editor", "cli")
      .whereLayer("editor").mayOnlyAccessLayers("run", "grammar")
      .whereLayer("editor").mayOnlyBeAccessedByLayers("cli")
      .whereLayer("run").mayOnlyAccessLayers("report", "mqtt", "plant", "trace", "logic", "engine", "grammar")
      .whereLayer("junit").mayOnlyAccessLayers("run", "report", "mqtt", "plant", "trace", "logic", "engine", "grammar")
      .whereLayer("junit").mayNotBeAccessedByAnyLayer()
      .whereLayer("cli").mayNotBeAccessedByAnyLayer();

  /**
   * Where a package's root holds the contract that its parts use and the facade that uses the parts, only the parts are
   * looked at.
   */
  private static final String[] PARTS = {"dev.pawl.(*)..", "dev.pawl.grammar.(*)..", "dev.pawl.grammar.rules.(*)..",
      "dev.pawl.grammar.logic.(*)..", "dev.pawl.engine.(*)..", "dev.pawl.trace.(*)..", "dev.pawl.logic.(*)..",
          "dev.pawl.plant.(*)..",
      "dev.pawl.mqtt.(*)..", "dev.pawl.report.(*)..", "dev.pawl.run.(*)..", "dev.pawl.cli.(*).."};

  private static final ArchRule ANTLR_STAYS_IN_THE_PARSERS = noClasses().that()
      .resideOutsideOfPackages("dev.pawl.grammar.rules.parse..", "dev.pawl.grammar.logic.parse..")
      .should().dependOnClassesThat().resideInAPackage("org.antlr..");

  private static final ArchRule UNITS_STAY_IN_THE_GRAMMAR = noClasses().that()
      .resideOutsideOfPackage("dev.pawl.grammar..")
      .should().dependOnClassesThat().resideInAnyPackage("tech.units..", "javax.measure..");

  private static final ArchRule JACKSON_STAYS_WHERE_JSON_IS_READ_OR_WRITTEN = noClasses().that()
      .resideOutsideOfPackages("dev.pawl.report.json..", "dev.pawl.trace..", "dev.pawl.mqtt..")
      .should().dependOnClassesThat().resideInAPackage("com.fasterxml.jackson..");

  private static final ArchRule LSP4J_STAYS_WHERE_EDITORS_ARE_ANSWERED = noClasses().that()
      .resideOutsideOfPackage("dev.pawl.editor..")
      .should().dependOnClassesThat().resideInAPackage("org.eclipse.lsp4j..");

  private static final ArchRule PAHO_STAYS_IN_MQTT = noClasses().that().resideOutsideOfPackage("dev.pawl.mqtt..")
      .should().dependOnClassesThat().resideInAPackage("org.eclipse.paho..");

  private static final ArchRule PICOCLI_STAYS_IN_THE_COMMAND_LINE = noClasses().that()
      .resideOutsideOfPackage("dev.pawl.cli..")
      .should().dependOnClassesThat().resideInAPackage("picocli..");

  private static final ArchRule ONLY_THE_COMMAND_LINE_KNOWS_STANDARD_STREAMS = noClasses().that()
      .resideOutsideOfPackage("dev.pawl.cli..")
      .should(ACCESS_STANDARD_STREAMS);

  private static final ArchRule ONLY_MAIN_ENDS_THE_PROCESS = noClasses().that()
      .doNotHaveFullyQualifiedName("dev.pawl.cli.Main")
      .should().callMethodWhere(target(owner(named("java.lang.System", "java.lang.Runtime")))
          .and(target(nameMatching("exit|halt"))));

  private static final ArchRule ONLY_THE_OUTERMOST_LAYERS_READ_THE_CLOCK = noClasses().that()
      .resideOutsideOfPackages("dev.pawl.cli..", "dev.pawl.junit..", "dev.pawl.run", "dev.pawl.mqtt..")
      .should().callMethodWhere(readsTheClock());

  private static final ArchRule ONLY_THE_COMMAND_LINE_READS_THE_ENVIRONMENT = noClasses().that()
      .resideOutsideOfPackage("dev.pawl.cli..")
      .should().callMethodWhere(target(owner(named("java.lang.System")))
          .and(target(nameMatching("getenv|getProperty|getProperties"))));

  static Iterable<Map.Entry<String, ArchRule>> rules() {
    Map<String, ArchRule> rules = new TreeMap<>();
    rules.put("dependencies run one way", DEPENDENCIES_RUN_ONE_WAY);
    for (String parts : PARTS) {
      rules.put("there are no cycles among " + parts, slices().matching(parts).should().beFreeOfCycles()
          .allowEmptyShould(true));
    }
    rules.put("antlr stays in the parsers", ANTLR_STAYS_IN_THE_PARSERS);
    rules.put("units stay in the grammar", UNITS_STAY_IN_THE_GRAMMAR);
    rules.put("jackson stays where json is read or written", JACKSON_STAYS_WHERE_JSON_IS_READ_OR_WRITTEN);
    rules.put("lsp4j stays where editors are answered", LSP4J_STAYS_WHERE_EDITORS_ARE_ANSWERED);
    rules.put("paho stays in mqtt", PAHO_STAYS_IN_MQTT);
    rules.put("picocli stays in the command line", PICOCLI_STAYS_IN_THE_COMMAND_LINE);
    rules.put("only the command line knows standard streams", ONLY_THE_COMMAND_LINE_KNOWS_STANDARD_STREAMS);
    rules.put("only main ends the process", ONLY_MAIN_ENDS_THE_PROCESS);
    rules.put("only the outermost layers read the clock", ONLY_THE_OUTERMOST_LAYERS_READ_THE_CLOCK);
    rules.put("only the command line reads the environment", ONLY_THE_COMMAND_LINE_READS_THE_ENVIRONMENT);
    return rules.entrySet();
  }

  @ParameterizedTest
  @MethodSource("rules")
  void theDesignHolds(Map.Entry<String, ArchRule> rule) {
    rule.getValue().check(CLASSES);
  }

  private static DescribedPredicate<JavaCall<?>> readsTheClock() {
    return target(owner(named("java.lang.System"))).and(target(nameMatching("nanoTime|currentTimeMillis")))
        .or(target(owner(resideInAnyPackage("java.time"))).and(target(nameMatching("now|system.*|tick.*"))))
        .as("reads the clock");
  }

  private static DescribedPredicate<JavaClass> named(String... names) {
    return DescribedPredicate.describe("class " + String.join(" or ", names),
        javaClass -> Arrays.asList(names).contains(javaClass.getName()));
  }
}
