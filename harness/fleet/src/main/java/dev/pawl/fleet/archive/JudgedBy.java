package dev.pawl.fleet.archive;

import dev.pawl.cli.option.ReadingOptions;
import dev.pawl.fleet.manifest.Manifest;
import dev.pawl.grammar.source.Source;
import dev.pawl.run.Controller;
import dev.pawl.run.EventSource;
import dev.pawl.run.RunException;
import dev.pawl.run.Session;
import dev.pawl.run.SessionOptions;
import dev.pawl.run.files.BindingsFiles;
import dev.pawl.run.files.RuleFiles;
import dev.pawl.trace.time.TimeScale;
import java.io.Serializable;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

/**
 * What the sessions of a set are judged by, as it travels to workers: the texts, so that no worker needs the files.
 *
 * @param name of the set
 * @param rules texts of rule files, in the order in which they were read
 * @param bindings text of the bindings
 * @param reading how traces are read
 * @param findings how many findings are kept of each rule and session
 * @param sessions how many sessions share them
 */
record JudgedBy(String name, List<Text> rules, Optional<Text> bindings, Reading reading, int findings, int sessions)
    implements Serializable {

  /**
   * How traces are read.
   *
   * @param timeUnit how their times are written, by its label; empty where they or the bindings say so
   */
  record Reading(String timeUnit, boolean lenient) implements Serializable {

    static Reading of(ReadingOptions options) {
      return new Reading(options.timeScale().map(TimeScale::label).orElse(""), options.lenient());
    }

    ReadingOptions options() {
      return new ReadingOptions(Optional.empty(), TimeScale.of(timeUnit), lenient);
    }
  }


  /** A text with the name of its file. */
  record Text(String name, String text) implements Serializable {

    static Text of(Source source) {
      return new Text(source.name(), source.text());
    }

    Source source() {
      return new Source(name, text);
    }
  }

  /** {@code Optional} does not travel. */
  private Object writeReplace() {
    return new Travelling(name, rules, bindings.orElse(null), reading, findings, sessions);
  }

  /** The same on its way. */
  private record Travelling(String name, List<Text> rules, Text bindings, Reading reading, int findings,
      int sessions)
      implements Serializable {

    private Object readResolve() {
      return new JudgedBy(name, rules, Optional.ofNullable(bindings), reading, findings, sessions);
    }
  }

  /**
   * Reads the rules and bindings of a set.
   *
   * @param library folder of the rule library
   * @throws RunException if anything is wrong with them, or several traces of a session are not joined by them
   */
  static JudgedBy read(Manifest.RuleSet set, Optional<Path> library, ReadingOptions reading, int findings) {
    RuleFiles rules = RuleFiles.load(set.rules(), List.of(), library);
    BindingsFiles bindings = set.bindings().map(file -> BindingsFiles.load(file, rules.book())).orElse(
        BindingsFiles.NONE);
    if (!bindings.bindings().session().joined()) {
      set.sessions().stream().filter(session -> session.files().size() > 1).findFirst().ifPresent(session -> {
        throw new RunException("the session '" + session.name() + "' of " + set.ride() + " has "
            + session.files().size() + " traces, and its bindings do not join them; say so there, under 'session':"
            + " joined, or give the traces no name for their session");
      });
    }
    return new JudgedBy(set.name(), rules.compilation().sources().stream().map(Text::of).toList(), bindings.source()
        .map(Text::of), Reading.of(reading), findings, set.sessions().size());
  }

  /** A session's traces as a source of its judging. */
  EventSource source(Session session, List<Path> files) {
    return session.source(files, reading.options().of(session.reading()));
  }

  /** The judging of its sessions, one after the other, on one thread. */
  Session session() {
    RuleFiles files = RuleFiles.of(rules.stream().map(Text::source).toList());
    BindingsFiles bound = bindings.map(text -> BindingsFiles.of(text.source(), files.book())).orElse(
        BindingsFiles.NONE);
    return new Session(files, bound, Controller.NONE, new SessionOptions(1, findings, true, true));
  }
}
