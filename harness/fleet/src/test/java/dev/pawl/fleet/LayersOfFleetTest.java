package dev.pawl.fleet;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;
import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption.DoNotIncludeTests;
import org.junit.jupiter.api.Test;

/** The fleet is beside all the rest, which knows neither it nor Flink. */
class LayersOfFleetTest {

  private static final JavaClasses CLASSES = new ClassFileImporter().withImportOption(new DoNotIncludeTests())
      .importPackages("dev.pawl");

  @Test
  void flinkStaysInTheFleet() {
    assertThat(CLASSES.contain("dev.pawl.cli.Main")).isTrue();
    noClasses().that().resideOutsideOfPackage("dev.pawl.fleet..").should().dependOnClassesThat().resideInAnyPackage(
        "org.apache.flink..", "dev.pawl.fleet..").check(CLASSES);
  }

  @Test
  void optionsAreReadByTheCommandLine() {
    noClasses().that().resideInAPackage("dev.pawl.fleet..").should().dependOnClassesThat().resideInAnyPackage(
        "picocli..", "com.fasterxml.jackson..").check(CLASSES);
  }

  @Test
  void itsRoomsHaveNoCycles() {
    slices().matching("dev.pawl.fleet.(*)..").should().beFreeOfCycles().check(CLASSES);
  }
}
