package dev.pawl.bench.table;

import dev.pawl.bench.workload.Books;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/** The command lines of everything that is measured. */
final class Programs {

  private static final Set<Integer> SUCCESS = Set.of(0);
  /** Pawl says with its status whether rules broke. */
  private static final Set<Integer> JUDGED = Set.of(0, 1);
  private static final List<String> RULE_FILES = List.of("campaign-signals.rules", "two.rules", "forty.rules");

  private final BenchSettings settings;
  private final String java = Path.of(System.getProperty("java.home"), "bin", "java").toString();

  Programs(BenchSettings settings) throws IOException {
    this.settings = settings;
    Files.createDirectories(settings.data());
    for (String file : RULE_FILES) {
      Files.writeString(settings.data().resolve(file), Books.file(file).text());
    }
  }

  /** {@code pawl check} by the launcher, as a user would start it. */
  Contestant pawl(String name, int rules, List<String> options, List<Path> traces, long rows) {
    List<String> command = new ArrayList<>();
    command.add(settings.home().resolve("harness/bin/pawl").toString());
    command.add("check");
    for (String file : rules == 2 ? RULE_FILES.subList(0, 2) : RULE_FILES) {
      command.add("--rules");
      command.add(settings.data().resolve(file).toString());
    }
    command.addAll(options);
    traces.forEach(trace -> command.add(trace.toString()));
    return new Contestant(name, rows, command, JUDGED);
  }

  /** The hand-coded scanner, with the same collector as Pawl has. */
  Contestant scanner(Path trace, long rows) {
    List<String> command = new ArrayList<>(scanner());
    command.add(trace.toString());
    return new Contestant("(a) hand-coded scanner, two rules", rows, command, SUCCESS);
  }

  /** The scanner on two traces at the same time, a process each; processor time and memory are not seen. */
  Contestant scanners(Path trace, Path other, long rows) {
    List<String> command = new ArrayList<>(List.of("sh", "-c",
        "one=$1; two=$2; shift 2; \"$@\" \"$one\" & \"$@\" \"$two\" & wait", "sh", trace.toString(), other.toString()));
    command.addAll(scanner());
    return new Contestant("(a) on two traces, two processes", rows, command, SUCCESS);
  }

  private List<String> scanner() {
    return List.of(java, "-XX:+UseSerialGC", "-Xmx128m", "-cp", System.getProperty("java.class.path"),
        "dev.pawl.bench.peer.HandScanner");
  }

  /** A measurement of the engine alone, as a process of its own. */
  Contestant own(String main, String... arguments) {
    List<String> command = new ArrayList<>(List.of(java, "-Xmx1g", "-XX:+UseSerialGC", "-cp",
        System.getProperty("java.class.path"), main));
    command.addAll(List.of(arguments));
    return new Contestant(main, 0, command, SUCCESS);
  }

  /** SQL; {@code rules} is "two" or "many". */
  Contestant sql(String rules, Path trace, long rows) {
    return new Contestant("(b) SQL", rows,
        List.of(java, "-XX:+UseSerialGC", "-cp", settings.peers(), "dev.pawl.bench.peers.DuckPeer", trace.toString(),
            rules), SUCCESS);
  }

  /** The event engine over events in memory. */
  Contestant events(Path trace, long rows) {
    return new Contestant("(c) event engine", rows,
        List.of(java, "-XX:+UseParallelGC", "-Xmx6g", "-cp", settings.peers(), "dev.pawl.bench.peers.EsperPeer",
            trace.toString(), Long.toString(rows), "3"), SUCCESS);
  }
}
