package dev.pawl.trace.bindings;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.NearName;
import dev.pawl.grammar.source.Position;
import dev.pawl.trace.time.TimeForm;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** Turns the entries of a bindings file into bindings, collecting everything that is wrong. */
final class BindingsResolver {

  private static final List<String> OWN_SECTIONS = List.of("time", "columns", "signals", "ignore", "values", "sampling",
      "beginning", "feedback", "session", "variables");

  private final BindingsFile file;
  private final RuleBook book;
  private final Set<String> otherSections;
  private final List<Diagnostic> diagnostics;
  private final List<TagBinding> tags = new ArrayList<>();
  private final Map<String, Position> boundTags = new HashMap<>();
  private final Map<Integer, Position> boundSignals = new HashMap<>();

  BindingsResolver(BindingsFile file, RuleBook book, Set<String> otherSections) {
    this.file = file;
    this.book = book;
    this.otherSections = otherSections;
    this.diagnostics = new ArrayList<>(file.diagnostics());
  }

  Bindings.Resolved resolve() {
    for (Section section : file.sections()) {
      if (!OWN_SECTIONS.contains(section.name()) && !otherSections.contains(section.name())) {
        Set<String> known = new LinkedHashSet<>(OWN_SECTIONS);
        known.addAll(otherSections);
        error(section.position(), "there is no section '" + section.name() + "'",
            "sections are " + String.join(", ", known));
      }
    }
    TimeForm time = new TimeSection(diagnostics).read(file.entries("time"));
    Columns columns = new ColumnsSection(diagnostics).read(file.entries("columns"));
    file.entries("signals").forEach(this::signal);
    Bindings bindings = new Bindings(time, columns, tags, ignored(),
        ValueWords.read(file.entries("values"), diagnostics), new SamplingReader(book, diagnostics)
        .read(file.entries("sampling")), new FeedbackReader(book, diagnostics).read(file.entries("feedback")),
        StatedSession.read(file.entries("session"), diagnostics),
        new BeginningReader(book, diagnostics).read(file.entries("beginning")), variables());
    diagnostics.sort(Comparator.comparingInt((Diagnostic d) -> d.position().line())
        .thenComparingInt(d -> d.position().column()));
    return new Bindings.Resolved(bindings, diagnostics);
  }

  private Map<String, String> variables() {
    Map<String, String> variables = new HashMap<>();
    for (Entry entry : file.entries("variables")) {
      List<Token> tokens = entry.tokens();
      if (tokens.size() != 3 || !tokens.get(1).is("at")) {
        error(entry.position(), "an entry of 'variables' says where the logic has a signal",
            "write: SIGNAL at %IX0.0, SIGNAL at %QW4, or SIGNAL at Program.instance.variable");
        continue;
      }
      Optional<Signal> signal = find(tokens.get(0));
      if (signal.isPresent() && variables.put(signal.get().name(), tokens.get(2).text()) != null) {
        error(tokens.get(0).position(), "signal '" + signal.get().name() + "' has a variable already",
            "keep one of the lines");
      }
    }
    return variables;
  }

  private List<String> ignored() {
    List<String> patterns = new ArrayList<>();
    for (Entry entry : file.entries("ignore")) {
      for (Token token : entry.tokens()) {
        if (!token.is(",")) {
          patterns.add(token.text());
        }
      }
    }
    return patterns;
  }

  private void signal(Entry entry) {
    List<Token> tokens = entry.tokens();
    if (tokens.size() < 3 || !tokens.get(1).is("from")) {
      error(entry.position(), "an entry of 'signals' says which tag a signal comes from",
          "write: SIGNAL from \"TAG\", then if need be: inverted, in UNIT, times X, plus Y, or where CODE = VALUE,"
              + " ...");
      return;
    }
    Optional<Signal> signal = find(tokens.get(0));
    if (signal.isEmpty()) {
      return;
    }
    Token tag = tokens.get(2);
    Optional<Conversion> conversion = new ConversionReader(signal.get().type(), diagnostics).read(entry, 3);
    Position before = boundTags.putIfAbsent(tag.text(), tag.position());
    Position twice = boundSignals.putIfAbsent(signal.get().index(), tokens.get(0).position());
    if (before != null) {
      error(tag.position(), "tag '" + tag.text() + "' is bound already, in line " + before.line(),
          "bind each tag to one signal");
    } else if (twice != null) {
      error(tokens.get(0).position(), "signal '" + signal.get().name() + "' is bound already, in line " + twice.line(),
          "bind each signal to one tag");
    } else {
      conversion.ifPresent(c -> tags.add(new TagBinding(tag.text(), signal.get().index(), c, entry.position())));
    }
  }

  private Optional<Signal> find(Token name) {
    return find(name, book, diagnostics);
  }

  static Optional<Signal> find(Token name, RuleBook book, List<Diagnostic> diagnostics) {
    Optional<Signal> found = book.signals().stream().filter(s -> s.name().equals(name.text())).findFirst();
    if (found.isEmpty()) {
      List<String> known = book.signals().stream().map(Signal::name).toList();
      diagnostics.add(Diagnostic.error(name.position(), "the rules declare no signal '" + name.text() + "'",
          NearName.hint(name.text(), known).orElse("declare it in a rule file, or leave this line out")));
    }
    return found;
  }

  private void error(Position position, String message, String hint) {
    diagnostics.add(Diagnostic.error(position, message, hint));
  }
}
