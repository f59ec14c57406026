package dev.pawl.cli.keep;

import dev.pawl.cli.CommandException;
import dev.pawl.report.model.Input;
import dev.pawl.report.model.Report;
import dev.pawl.run.files.Folders;
import dev.pawl.run.files.RideFiles;
import dev.pawl.run.files.RuleFiles;
import dev.pawl.run.files.TraceFiles;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.stream.Stream;

/**
 * The list of the files that a report rests on, with the SHA-256 of each, as {@code sha256sum -c} reads it. Their paths
 * are those that the command was given, so it is read where the command ran. Folders that were given are remarked, so
 * that a file which came into one since is noticed.
 */
public final class InputList {

  public static final String NAME = "inputs.sha256";
  private static final String FOLDER = "# all of the folder, as ";
  private static final String UNREAD = "# not read, as ";

  private InputList() {}

  /** What a report rests on, as the command named it. */
  static String of(Report report, Asked asked) {
    StringBuilder lines = new StringBuilder("""
        # The files that the report beside this list rests on, by their paths from where pawl ran.
        # There 'sha256sum -c' checks them by this list, and 'pawl verify' them and the report.
        """);
    String role = "";
    for (Input input : report.inputs()) {
      if (!input.role().label().equals(role)) {
        role = input.role().label();
        lines.append("# ").append(role).append('\n');
      }
      lines.append(input.sha256().isEmpty() ? UNREAD + role + ": " + Checksum.escaped(input.path())
          : new Checksum(input.sha256(), input.path()).line()).append('\n');
    }
    folders(asked.rules()).forEach(folder -> lines.append(remark(Input.Role.RULES, folder)));
    folders(asked.traces()).forEach(folder -> lines.append(remark(Input.Role.TRACE, folder)));
    asked.scenarios().ifPresent(folder -> lines.append(remark(Input.Role.RIDE, folder)));
    return lines.toString();
  }

  private static Stream<String> folders(List<String> paths) {
    return paths.stream().filter(path -> Files.isDirectory(Path.of(path)));
  }

  private static String remark(Input.Role role, String folder) {
    return FOLDER + role.label() + ": " + Checksum.escaped(folder) + "\n";
  }

  /** The files of a list with their checksums. */
  static List<Checksum> files(List<String> lines) {
    return lines.stream().map(Checksum::of).flatMap(Optional::stream).toList();
  }

  /** Files that were named but could not be read then. */
  static List<String> unread(List<String> lines) {
    return lines.stream().filter(line -> line.startsWith(UNREAD))
        .map(line -> Checksum.plain(line.substring(line.indexOf(": ") + 2))).toList();
  }

  /** Files that lie in a folder of the list now and are not in the list, by their paths from where pawl ran. */
  static List<String> added(List<String> lines, Path from) {
    List<String> listed = new ArrayList<>(files(lines).stream().map(Checksum::path).toList());
    listed.addAll(unread(lines));
    List<String> added = new ArrayList<>();
    for (String line : lines) {
      int end = line.indexOf(": ");
      if (line.startsWith(FOLDER) && end > 0) {
        Path folder = Path.of(Checksum.plain(line.substring(end + 2)));
        if (Files.isDirectory(from.resolve(folder))) {
          Folders.inside(from.resolve(folder), wanted(line.substring(FOLDER.length(), end))).stream()
              .map(file -> folder.resolve(from.resolve(folder).relativize(file)).toString())
              .filter(file -> !listed.contains(file)).forEach(added::add);
        }
      }
    }
    return added;
  }

  private static Predicate<String> wanted(String role) {
    return switch (role) {
      case "rules" -> name -> name.endsWith(RuleFiles.ENDING);
      case "trace" -> TraceFiles::isTrace;
      case "ride" -> name -> name.endsWith(RideFiles.SCENARIO);
      default -> throw new CommandException(NAME + ": a folder of '" + role + "' is not known to this pawl");
    };
  }
}
