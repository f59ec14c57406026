package dev.pawl.cli.option;

import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import picocli.CommandLine.ParseResult;

/**
 * What a command was asked for: every option of it with its words, or with what is usual where none were given.
 *
 * @param command its words, such as {@code pawl check}
 * @param settings all its options, in the order of its help
 */
public record Asked(String command, List<Setting> settings) {

  /** Nothing that anybody wrote. */
  public static final Asked NONE = new Asked("", List.of());

  /** Options that have no part in what is judged: what is written where, and by how many threads. */
  private static final Set<String> APART = Set.of(ReportOptions.OUT.name(), CheckOptions.JOBS.name(),
      ReportOptions.FORMAT.name(), ReportOptions.QUIET.name(), ReplayOptions.KEEP.name(), "--replace");

  /** One option, and what was said of it. */
  public record Setting(String option, String words) {}

  public static Asked of(ParseResult words, Syntax syntax) {
    return new Asked(words.commandSpec().name(), syntax.options().stream()
        .map(option -> new Setting(option.name(), option.stated(words))).toList());
  }

  /** Those of which what is judged depends. */
  public Stream<Setting> judging() {
    return settings.stream().filter(setting -> !APART.contains(setting.option()));
  }

  /** The others. */
  public Stream<Setting> apart() {
    return settings.stream().filter(setting -> APART.contains(setting.option()));
  }
}
