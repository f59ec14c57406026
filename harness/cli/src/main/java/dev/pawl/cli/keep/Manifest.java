package dev.pawl.cli.keep;

import dev.pawl.report.ReportFormat;
import dev.pawl.run.files.Digests;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

/**
 * The manifest of a report's folder: the SHA-256 of each file, as {@code sha256sum -c} reads it. It is written when all
 * others are whole.
 */
public final class Manifest {

  public static final String NAME = "manifest.sha256";

  private Manifest() {}

  /** The manifest of the files as they are. */
  public static String of(Path folder) throws IOException {
    StringBuilder lines = new StringBuilder();
    for (String name : ReportFormat.fileNames()) {
      lines.append(Digests.sha256(folder.resolve(name))).append("  ").append(name).append('\n');
    }
    return lines.toString();
  }

  /** Why a folder is no whole report of pawl; empty if it is one. */
  public static Optional<String> flaw(Path folder) throws IOException {
    Path manifest = folder.resolve(NAME);
    if (!Files.isRegularFile(manifest)) {
      return Optional.of("it has no " + NAME + ", which a report of pawl has");
    }
    List<String> stated = Files.readAllLines(manifest);
    for (String name : ReportFormat.fileNames()) {
      Path file = folder.resolve(name);
      if (!Files.isRegularFile(file)) {
        return Optional.of("it is incomplete: " + name + " is missing");
      }
      if (!stated.contains(Digests.sha256(file) + "  " + name)) {
        return Optional.of("it is incomplete or changed: " + name + " is not as " + NAME + " has it");
      }
    }
    return Optional.empty();
  }
}
