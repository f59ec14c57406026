package dev.pawl.cli.keep;

import dev.pawl.grammar.source.Legible;
import dev.pawl.run.files.Digests;
import java.nio.file.Path;

/**
 * What stands apart of a report: where and how it was made, which has no part in what it says. It is a checksum file of
 * the manifest alone, so that who signs it signs the whole.
 */
final class RunRecord {

  static final String NAME = "run.sha256";

  private RunRecord() {}

  static String of(String manifest, Path place, Asked asked) {
    StringBuilder lines = new StringBuilder("""
        # Where and how the report beside this file was made. Nothing here has a part in what the report says.
        """);
    lines.append("# Java ").append(system("java.version")).append(" (").append(system("java.vendor")).append(", ")
        .append(system("java.vm.name")).append(")\n");
    lines.append("# ").append(system("os.name")).append(' ').append(system("os.version")).append(", ")
        .append(system("os.arch")).append('\n');
    lines.append("# in the folder ").append(Legible.of(Path.of("").toAbsolutePath().toString())).append('\n');
    lines.append("# report in ").append(Legible.of(place.toString())).append('\n');
    asked.apart().forEach(setting -> lines.append(Manifest.remark(setting)));
    return lines.append(new Checksum(Digests.sha256(manifest), Manifest.NAME).line()).append('\n').toString();
  }

  private static String system(String property) {
    return Legible.of(System.getProperty(property, "unknown"));
  }
}
