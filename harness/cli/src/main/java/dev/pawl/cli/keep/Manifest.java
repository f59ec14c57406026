package dev.pawl.cli.keep;

import dev.pawl.grammar.source.Legible;
import dev.pawl.report.ReportFormat;
import dev.pawl.report.model.Report;
import dev.pawl.run.Version;
import dev.pawl.run.files.Digests;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * The manifest of a report's folder, as {@code sha256sum -c} reads it: the SHA-256 of each file of the report and of
 * the list of its inputs, and in remarks the build and all options. It is written when all others are whole. The same
 * inputs, options and time of making give the same bytes; what is of the machine stands in {@link RunRecord}.
 */
public final class Manifest {

  public static final String NAME = "manifest.sha256";

  /** What a manifest is worth. */
  public static final String WORTH = "Unsigned, a manifest finds accidents, not intent: whoever can change a report can"
      + " change its manifest too. Sign it, or keep its SHA-256 elsewhere.";

  private Manifest() {}

  /** The files that a manifest speaks of. */
  static List<String> fileNames() {
    List<String> names = new ArrayList<>(List.of(InputList.NAME));
    names.addAll(ReportFormat.fileNames());
    return names;
  }

  /** The manifest of the files as they are. */
  static String of(Path folder, Report report, Asked asked) throws IOException {
    StringBuilder lines = new StringBuilder("# The files of a report of pawl. ").append(WORTH).append('\n');
    lines.append("# pawl ").append(Version.TEXT).append(", ").append(Version.BUILD).append('\n');
    lines.append("# made ").append(report.created());
    lines.append(report.created().isEmpty() ? "" : "; with SOURCE_DATE_EPOCH="
        + Instant.parse(report.created()).getEpochSecond() + " the same inputs give the same bytes").append('\n');
    lines.append("# ").append(asked.command().isEmpty() ? "with usual options" : asked.command()).append('\n');
    asked.judging().forEach(setting -> lines.append(remark(setting)));
    for (String name : fileNames()) {
      lines.append(new Checksum(Digests.sha256(folder.resolve(name)), name).line()).append('\n');
    }
    return lines.toString();
  }

  static String remark(Asked.Setting setting) {
    return "#   " + setting.option() + " " + Legible.of(setting.words()) + "\n";
  }

  /** The files that a manifest states, with their checksums. */
  static List<Checksum> stated(Path manifest) throws IOException {
    return Files.readAllLines(manifest).stream().map(Checksum::of).flatMap(Optional::stream).toList();
  }

  /** Why a folder is no whole report of pawl; empty if it is one. */
  public static Optional<String> flaw(Path folder) throws IOException {
    Path manifest = folder.resolve(NAME);
    if (!Files.isRegularFile(manifest)) {
      return Optional.of("it has no " + NAME + ", which a report of pawl has");
    }
    List<Checksum> stated = stated(manifest);
    for (String name : ReportFormat.fileNames()) {
      if (!Files.isRegularFile(folder.resolve(name))) {
        return Optional.of("it is incomplete: " + name + " is missing");
      }
      if (stated.stream().noneMatch(sum -> sum.path().equals(name))) {
        return Optional.of("it is incomplete or changed: " + name + " is not as " + NAME + " has it");
      }
    }
    for (Checksum sum : stated) {
      Path file = folder.resolve(sum.path());
      if (!Files.isRegularFile(file)) {
        return Optional.of("it is incomplete: " + sum.path() + " is missing");
      }
      if (!sum.sha256().equals(Digests.sha256(file))) {
        return Optional.of("it is incomplete or changed: " + sum.path() + " is not as " + NAME + " has it");
      }
    }
    return Optional.empty();
  }
}
