package dev.pawl.run;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.pawl.run.files.LogicFiles;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Folders of logic, as they lie in repositories: with XML beside it that is something else. */
class LogicFolderTest {

  private static final String OTHER = "<?xml version=\"1.0\"?>\n<settings><item/></settings>\n";

  @TempDir
  private Path folder;

  private Path write(String name, String text) throws IOException {
    return Files.writeString(folder.resolve(name), text);
  }

  @Test
  void otherXmlIsLeftOutOfAFolderAndNamedOnce() throws IOException {
    write("lift.st", "PROGRAM Lift VAR x : BOOL; END_VAR x := TRUE; END_PROGRAM");
    write("build.xml", OTHER);
    write("pages.xml", OTHER);
    LogicFiles logic = LogicFiles.load(List.of(folder.toString()));
    assertThat(logic.sources()).singleElement().satisfies(it -> assertThat(it.name()).endsWith("lift.st"));
    assertThat(logic.warnings()).contains("build.xml", "and so it is with", "pages.xml")
        .containsOnlyOnce("left out, since it is no project in an exchange format");
  }

  @Test
  void otherXmlThatIsNamedIsRefused() throws IOException {
    String named = write("build.xml", OTHER).toString();
    assertThatThrownBy(() -> LogicFiles.load(List.of(named))).isInstanceOf(RunException.class)
        .hasMessageContaining("this XML is no project in an exchange format");
  }

  @Test
  void aFolderOfOtherXmlHoldsNoLogic() throws IOException {
    write("build.xml", OTHER);
    assertThatThrownBy(() -> LogicFiles.load(List.of(folder.toString()))).isInstanceOf(RunException.class)
        .hasMessageContaining("this folder holds no Structured Text");
  }

  /** XML that cannot be read at all is not left out: it may be the project that was meant. */
  @Test
  void brokenXmlIsRefusedInAFolderToo() throws IOException {
    write("lift.st", "PROGRAM Lift VAR x : BOOL; END_VAR x := TRUE; END_PROGRAM");
    write("project.xml", "<project xmlns=");
    assertThatThrownBy(() -> LogicFiles.load(List.of(folder.toString()))).isInstanceOf(RunException.class)
        .hasMessageContaining("project.xml");
  }
}
