package dev.pawl.trace.bindings;

import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.NearName;
import dev.pawl.grammar.source.Position;
import dev.pawl.trace.time.Repeated;
import dev.pawl.trace.time.TimeForm;
import dev.pawl.trace.time.TimeScale;
import dev.pawl.trace.time.WrittenTime;
import java.time.DateTimeException;
import java.time.ZoneId;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;

/** Reads the section {@code time} of a bindings file: how times are written, and whose clock they are of. */
final class TimeSection {

  private final List<Diagnostic> diagnostics;
  private final Map<String, Entry> stated = new HashMap<>();

  TimeSection(List<Diagnostic> diagnostics) {
    this.diagnostics = diagnostics;
  }

  TimeForm read(List<Entry> entries) {
    entries.forEach(this::note);
    Optional<TimeScale> unit = unit();
    Optional<WrittenTime> written = written();
    Optional<ZoneId> zone = zone();
    Repeated repeated = repeated();
    boolean epoch = stated.containsKey("unit") && stated.get("unit").tokens().size() > 2;
    boolean number = unit.isPresent() && unit.get() != TimeScale.RFC_3339;
    if (number && written.isPresent()) {
      error(stated.get("written").position(), "times are numbers or written out, not both", "keep unit or written");
    } else if (unit.isPresent() && written.isPresent()) {
      error(stated.get("unit").position(), "how times are written is stated twice", "keep one of unit and written");
    }
    boolean dated = !number && written.map(form -> form.dated() && !form.offset()).orElse(true);
    if (zone.isPresent() && !dated) {
      error(stated.get("zone").position(), "a zone is for dates that state no offset of their own", "leave it out");
    }
    if (written.isPresent() && zone.isEmpty() && written.get().dated() && !written.get().offset()
        && !stated.containsKey("zone")) {
      error(stated.get("written").position(), "these dates state no offset, and nothing says whose clock it is",
          "add: zone UTC, or one such as zone Europe/Vienna or zone +01:00");
    }
    if (repeated != Repeated.UNSTATED && zone.isEmpty()) {
      error(stated.get("twice").position(), "a time comes twice only where a zone is stated",
          "add zone, or leave this out");
    }
    return new TimeForm(unit, epoch, written, zone, repeated);
  }

  private void note(Entry entry) {
    List<Token> tokens = entry.tokens();
    String word = tokens.get(0).text();
    boolean known = switch (word) {
      case "unit" -> tokens.size() == 2 || tokens.size() == 4 && tokens.get(2).is("since") && tokens.get(3).is("1970");
      case "written", "zone" -> tokens.size() == 2;
      case "twice" -> tokens.size() == 2 || tokens.size() == 3;
      default -> false;
    };
    if (!known) {
      error(entry.position(), "section 'time' says how times are written",
          "write: unit ms; or: unit us since 1970; or: written \"day.month.year hour:minute:second\"; or: zone "
              + "Europe/Vienna; or:"
              + " twice in order");
    } else if (stated.putIfAbsent(word, entry) != null) {
      error(entry.position(), word.equals("unit") ? "the unit of time is stated twice"
          : "'" + word + "' is stated twice", "keep one");
    }
  }

  private Optional<Token> second(String word) {
    return Optional.ofNullable(stated.get(word)).map(entry -> entry.tokens().get(1));
  }

  private Optional<TimeScale> unit() {
    Optional<Token> token = second("unit");
    Optional<TimeScale> scale = token.flatMap(unit -> TimeScale.of(unit.text()));
    if (token.isPresent() && scale.isEmpty()) {
      error(token.get().position(), "'" + token.get().text() + "' is no unit of time", "use " + TimeScale.CHOICES);
    }
    return scale;
  }

  private Optional<WrittenTime> written() {
    Optional<Token> token = second("written");
    if (token.isEmpty()) {
      return Optional.empty();
    }
    WrittenTime.Read read = WrittenTime.of(token.get().text());
    if (read.time().isEmpty()) {
      error(token.get().position(), "this does not say how times are written: " + read.problem(),
          "put together the words " + WrittenTime.WORDS + ", with what stands between them");
    }
    return read.time();
  }

  private Optional<ZoneId> zone() {
    Optional<Token> token = second("zone");
    if (token.isEmpty()) {
      return Optional.empty();
    }
    String name = token.get().text();
    try {
      return Optional.of(ZoneId.of(name.equalsIgnoreCase("utc") ? "UTC" : name));
    } catch (DateTimeException e) {
      List<String> known = ZoneId.getAvailableZoneIds().stream().sorted().collect(Collectors.toList());
      error(token.get().position(), "'" + name + "' is no time zone that is known here",
          NearName.hint(name, known).orElse("write UTC, an offset such as +01:00, or a region such as Europe/Vienna"));
      return Optional.empty();
    }
  }

  private Repeated repeated() {
    Entry entry = stated.get("twice");
    if (entry == null) {
      return Repeated.UNSTATED;
    }
    String words = entry.tokens().stream().skip(1).map(Token::text).collect(Collectors.joining(" "));
    Optional<Repeated> repeated = Repeated.of(words);
    if (repeated.isEmpty()) {
      error(entry.position(), "'" + words + "' does not say which is meant of a local time that comes twice",
          "write: twice " + Repeated.CHOICES);
    }
    return repeated.orElse(Repeated.UNSTATED);
  }

  private void error(Position position, String message, String hint) {
    diagnostics.add(Diagnostic.error(position, message, hint));
  }
}
