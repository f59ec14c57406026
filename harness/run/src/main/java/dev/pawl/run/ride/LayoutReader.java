package dev.pawl.run.ride;

import dev.pawl.grammar.rules.parse.RuleReader;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.NearName;
import dev.pawl.grammar.source.Position;
import dev.pawl.grammar.source.Source;
import dev.pawl.run.ride.Layout.Declared;
import dev.pawl.run.ride.Layout.Meaning;
import dev.pawl.run.ride.Layout.Place;
import dev.pawl.run.ride.Layout.Stop;
import dev.pawl.trace.bindings.BindingsFile;
import dev.pawl.trace.bindings.Entry;
import dev.pawl.trace.bindings.Section;
import dev.pawl.trace.bindings.Token;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/** Reads the description of a layout, collecting everything that is wrong. */
final class LayoutReader {

  private static final List<String> STATEMENTS = List.of("ride", "resolution", "zone", "stop", "input", "output",
      "adopt", "means");
  private static final List<String> CLAUSES = List.of("begins", "ends", "released", "driven", "holds",
      "starts");
  private static final String ZONE_FORM = "write: zone NAME begins at FLAG, then if need be: ends at FLAG, released by"
      + " OUTPUT, driven by OUTPUT, holds NUMBER, starts with NUMBER";
  private static final int MOST_TRAINS = 99;

  private final Source source;
  private final List<Diagnostic> diagnostics;
  private final BindingsFile file;
  private final Map<String, Position> names = new HashMap<>();
  private final Map<String, Declared> signals = new LinkedHashMap<>();
  private final Map<String, Meaning> meanings = new LinkedHashMap<>();
  private final List<Place> places = new ArrayList<>();
  private final List<Token> adopted = new ArrayList<>();
  private String ride = "";
  private String resolution = "";
  private Optional<Stop> stop = Optional.empty();

  private LayoutReader(Source source) {
    this.source = source;
    this.file = BindingsFile.parse(source);
    this.diagnostics = new ArrayList<>(file.diagnostics());
  }

  /** A layout, or what is wrong with its description. */
  record Read(Layout layout, List<Diagnostic> diagnostics) {}

  static Read read(Source source) {
    return new LayoutReader(source).read();
  }

  private Read read() {
    for (Section section : file.sections()) {
      statement(section);
    }
    Position whole = new Position(source.name(), 1, 1, 1);
    if (ride.isEmpty()) {
      error(whole, "the ride has no name", "write a line: ride \"NAME\"");
    }
    if (places.isEmpty()) {
      error(whole, "there is no zone", ZONE_FORM);
    }
    return new Read(new Layout(ride, resolution, places, stop, signals, adopted, meanings), diagnostics);
  }

  private void statement(Section section) {
    switch (section.name()) {
      case "ride" -> ride = only(section, "ride \"NAME\"").map(Token::text).orElse("unnamed");
      case "resolution" -> resolution = text(section, "resolution 10 ms");
      case "zone" -> section.entries().stream().limit(1).forEach(this::zone);
      case "stop" -> section.entries().stream().limit(1).forEach(this::stop);
      case "input", "output" -> section.entries().forEach(entry -> signal(entry, section.name().equals("output")));
      case "adopt" -> section.entries().forEach(entry -> entry.tokens().stream().filter(token -> !token.is(","))
          .forEach(adopted::add));
      case "means" -> section.entries().forEach(this::meaning);
      default -> error(section.position(), "no statement begins with '" + section.name() + "'",
          NearName.hint(section.name(), STATEMENTS).orElse("statements are " + String.join(", ", STATEMENTS)));
    }
    if (section.entries().isEmpty() && STATEMENTS.contains(section.name())) {
      error(section.position(), "'" + section.name() + "' says nothing", section.name().equals("zone") ? ZONE_FORM
          : "say what it is, or take the line away");
    } else if (section.entries().size() > 1 && Set.of("zone", "stop", "ride").contains(section.name())) {
      error(section.entries().get(1).position(), "'" + section.name() + "' is one line",
          "put it on the line of its word");
    }
  }

  private Optional<Token> only(Section section, String form) {
    Optional<Token> token = section.entries().stream().findFirst().map(entry -> entry.tokens().get(0));
    section.entries().stream().limit(1).filter(entry -> entry.tokens().size() > 1).forEach(entry ->
        error(entry.tokens().get(1).position(), "one name was expected", "write: " + form));
    return token;
  }

  private String text(Section section, String form) {
    Optional<Entry> entry = section.entries().stream().findFirst();
    if (entry.isPresent() && entry.get().tokens().size() != 2) {
      error(entry.get().position(), "a number and its unit were expected", "write: " + form);
    }
    return entry.map(LayoutReader::words).orElse("");
  }

  private static String words(Entry entry) {
    return entry.tokens().stream().map(Token::text).collect(Collectors.joining(" "));
  }

  private void zone(Entry entry) {
    Token name = entry.tokens().get(0);
    takeName(name);
    Map<String, Token> clauses = new HashMap<>();
    for (int at = 1; at < entry.tokens().size(); ) {
      Token word = entry.tokens().get(at);
      if (!CLAUSES.contains(word.text())) {
        error(word.position(), "a zone has no '" + word.text() + "'",
            NearName.hint(word.text(), CLAUSES).orElse(ZONE_FORM));
        return;
      }
      int value = word.is("holds") ? at + 1 : at + 2;
      String joint = word.is("holds") ? "" : word.is("begins") || word.is("ends") ? "at"
          : word.is("starts") ? "with" : "by";
      if (value >= entry.tokens().size() || !joint.isEmpty() && !entry.tokens().get(at + 1).is(joint)) {
        error(word.position(), "'" + word.text() + "' is followed by " + (joint.isEmpty() ? "a number"
            : "'" + joint + "' and " + (joint.equals("with") ? "a number" : "a name")), ZONE_FORM);
        return;
      }
      if (clauses.put(word.text(), entry.tokens().get(value)) != null) {
        error(word.position(), "'" + word.text() + "' is said twice of zone " + name.text(), "say it once");
      }
      at = value + 1;
    }
    if (!clauses.containsKey("begins")) {
      error(name.position(), "zone " + name.text() + " does not say where it begins", ZONE_FORM);
      return;
    }
    String flag = flag(clauses.get("begins"));
    places.stream().filter(place -> place.flag().equals(flag)).findFirst().ifPresent(place ->
        error(clauses.get("begins").position(), "zone " + place.name() + " begins at " + flag + " already",
            "each zone begins at a flag of its own"));
    places.add(new Place(name, flag, Optional.ofNullable(clauses.get("ends")).map(this::flag),
        Optional.ofNullable(clauses.get("released")).map(this::command),
        Optional.ofNullable(clauses.get("driven")).map(this::command),
        Optional.ofNullable(clauses.get("holds")).map(token -> trains(token, 1)).orElse(1),
        Optional.ofNullable(clauses.get("starts")).map(token -> trains(token, 0))));
  }

  private int trains(Token token, int least) {
    try {
      int trains = Integer.parseInt(token.text());
      if (trains >= least && trains <= MOST_TRAINS) {
        return trains;
      }
    } catch (NumberFormatException e) {
      // Said below, as for a number out of range.
    }
    error(token.position(), "'" + token.text() + "' is no number of trains", "write a whole number from " + least
        + " to " + MOST_TRAINS);
    return 1;
  }

  private String flag(Token token) {
    return declare(token, new Declared(false, "bool"));
  }

  private String command(Token token) {
    return declare(token, new Declared(true, "bool"));
  }

  /** Several statements may speak of one signal, as long as they agree on what it is. */
  private String declare(Token token, Declared as) {
    if (!signals.containsKey(token.text())) {
      takeName(token);
      signals.put(token.text(), as);
    } else if (!signals.get(token.text()).equals(as)) {
      Declared before = signals.get(token.text());
      error(token.position(), token.text() + " is " + said(before) + " already", "it cannot be " + said(as) + " too");
    }
    return token.text();
  }

  private static String said(Declared declared) {
    return (declared.output() ? "an output of " : "an input of ") + declared.type();
  }

  private void stop(Entry entry) {
    List<Token> words = entry.tokens();
    if (words.size() != 6 || !words.get(1).is("within") || !words.get(4).is("reset")) {
      error(entry.position(), "the emergency stop is stated in another way",
          "write: stop CIRCUIT within 500 ms reset BUTTON");
      return;
    }
    if (stop.isPresent()) {
      error(entry.position(), "the emergency stop is stated twice", "state it once");
    }
    stop = Optional.of(new Stop(flag(words.get(0)), words.get(2).text() + " " + words.get(3).text(),
        flag(words.get(5))));
  }

  private void signal(Entry entry, boolean output) {
    List<Token> words = entry.tokens();
    declare(words.get(0), new Declared(output, words.size() == 1 ? "bool"
        : words.subList(1, words.size()).stream().map(Token::text).collect(Collectors.joining(" "))));
  }

  private void meaning(Entry entry) {
    List<Token> words = entry.tokens();
    if (words.size() < 3 || !words.get(1).is("=")) {
      error(entry.position(), "an entry of 'means' says what a name of the library is on this ride",
          "write: NAME = 20 s, or NAME = CONDITION");
      return;
    }
    takeName(words.get(0));
    Position first = words.get(2).position();
    String line = source.line(first.line());
    int comment = line.indexOf("--");
    meanings.put(words.get(0).text(), new Meaning(line.substring(first.column() - 1, comment < 0 ? line.length()
        : comment).strip(), words.get(0).position()));
  }

  private void takeName(Token token) {
    if (!token.text().matches("[A-Za-z][A-Za-z0-9_]*")) {
      error(token.position(), "'" + token.text() + "' cannot be a name",
          "a name begins with a letter, and has letters, digits and _ only");
    } else if (!RuleReader.read(new Source("", "input " + token.text() + " : bool")).diagnostics().isEmpty()) {
      error(token.position(), "'" + token.text() + "' is a word of the rule language and cannot be a name",
          "choose another name, such as " + token.text() + "_1");
    }
    Position before = names.putIfAbsent(token.text(), token.position());
    if (before != null) {
      error(token.position(), "the name " + token.text() + " stands for something else already, in line "
          + before.line(), "give each its own name");
    }
  }

  private void error(Position position, String message, String hint) {
    diagnostics.add(Diagnostic.error(position, message, hint));
  }
}
