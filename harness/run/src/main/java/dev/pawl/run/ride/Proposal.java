package dev.pawl.run.ride;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.RuleParts;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.report.words.TimeText;
import dev.pawl.report.words.ValueText;
import dev.pawl.run.RunException;
import dev.pawl.run.files.FileTrouble;
import dev.pawl.trace.bindings.BindingsFile;
import dev.pawl.trace.survey.LogSurvey;
import dev.pawl.trace.survey.SeenTag;
import dev.pawl.trace.survey.Surveyor;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;

/** The bindings that a log speaks for: each entry a proposal, which judges nothing before a person has confirmed it. */
public final class Proposal {

  private static final double LEAST = 0.45;
  private static final double WORTH_NAMING = 0.4;
  private static final int OTHERS = 3;
  private static final List<List<String>> PAIRS = List.of(List.of("on", "off"), List.of("closed", "open"),
      List.of("1.0", "0.0"), List.of("-1", "0"), List.of("yes", "no"), List.of("high", "low"), List.of("run", "stop"),
      List.of("active", "inactive"), List.of("ok", "fault"));

  private final RuleBook book;
  private final LogSurvey survey;
  private final Map<Integer, SeenTag> chosen = new HashMap<>();
  private final List<String> lines = new ArrayList<>();

  private Proposal(RuleBook book, LogSurvey survey) {
    this.book = book;
    this.survey = survey;
  }

  /**
   * Looks at a log and says what its bindings might be.
   *
   * @return the text of a bindings file, to be confirmed line by line
   */
  public static String of(RuleBook book, Path log) {
    try {
      return new Proposal(book, Surveyor.survey(log)).text(log);
    } catch (IOException e) {
      throw new RunException(FileTrouble.message(log.toString(), e));
    }
  }

  /** A tag that may be a signal. */
  private record Candidate(Signal signal, SeenTag tag, double likeness) {}

  private String text(Path log) {
    lines.add("-- Proposed by a look at " + log.getFileName() + ", " + survey.form() + " with " + survey.tags().size()
        + " tags. Nothing of it is adopted: look at each line,");
    lines.add("-- then take its word '" + BindingsFile.PROPOSAL + "' away, or the whole line.");
    if (survey.strange() > 0) {
      lines.add("-- " + ValueText.count(survey.strange()) + " of " + ValueText.count(survey.rows())
          + " rows have another form than the others, or a time that is not understood.");
    }
    section("time", survey.time().entries());
    survey.time().question().ifPresent(question -> {
      if (survey.time().entries().isEmpty()) {
        lines.add("time");
      }
      lines.add("  -- " + question);
    });
    section("columns", survey.columns());
    List<Candidate> candidates = candidates();
    choose(candidates);
    lines.add("signals");
    int width = book.signals().stream().mapToInt(signal -> signal.name().length()).max().orElse(1);
    book.signals().forEach(signal -> signal(signal, width, candidates));
    values();
    sampling();
    List<String> left = survey.tags().stream().filter(tag -> !chosen.containsValue(tag))
        .map(tag -> BindingsFile.word(tag.name())).toList();
    section("ignore", left);
    return lines.stream().collect(Collectors.joining("\n", "", "\n"));
  }

  private void section(String name, List<String> entries) {
    if (!entries.isEmpty()) {
      lines.add(name);
      entries.forEach(entry -> lines.add("  " + BindingsFile.PROPOSAL + " " + entry));
    }
  }

  private List<Candidate> candidates() {
    Set<Integer> flags = new TreeSet<>();
    book.zones().forEach(zone -> flags.addAll(RuleParts.signals(zone.conditions(), book)));
    List<Candidate> candidates = new ArrayList<>();
    for (Signal signal : book.signals()) {
      for (SeenTag tag : survey.tags()) {
        double likeness = fits(signal.type(), tag) ? LikeNames.likeness(signal.name(), tag.name()) : 0;
        if (likeness > 0) {
          boolean comes = tag.changes() > 0;
          candidates.add(new Candidate(signal, tag, likeness + (comes ? 0.05 : 0)
              + (flags.contains(signal.index()) && comes && tag.hasTwoValues() ? 0.05 : 0)));
        }
      }
    }
    candidates.sort(Comparator.comparingDouble(Candidate::likeness).reversed());
    return candidates;
  }

  private static boolean fits(ValueType type, SeenTag tag) {
    return type.match(bool -> tag.hasTwoValues(), enumeration -> !tag.hasMany(), quantity -> tag.isNumeric());
  }

  /** The likeliest pairs first; a tag is one signal only. */
  private void choose(List<Candidate> candidates) {
    for (Candidate candidate : candidates) {
      if (candidate.likeness() >= LEAST && !chosen.containsKey(candidate.signal().index())
          && !chosen.containsValue(candidate.tag())) {
        chosen.put(candidate.signal().index(), candidate.tag());
      }
    }
  }

  private void signal(Signal signal, int width, List<Candidate> candidates) {
    SeenTag tag = chosen.get(signal.index());
    String others = candidates.stream().filter(each -> each.signal() == signal && each.tag() != tag
        && each.likeness() >= WORTH_NAMING).limit(OTHERS)
        .map(each -> BindingsFile.word(each.tag().name())).collect(Collectors.joining(", "));
    String name = signal.name() + " ".repeat(width - signal.name().length());
    if (tag == null) {
      lines.add("  -- " + name + " from \"\"   -- no tag is like it" + (others.isEmpty() ? "" : "; perhaps " + others));
    } else {
      lines.add("  " + BindingsFile.PROPOSAL + " " + name + " from " + BindingsFile.word(tag.name()) + "   -- "
          + behaviour(tag) + question(signal.type(), tag) + (others.isEmpty() ? "" : "; or " + others));
    }
  }

  private static String behaviour(SeenTag tag) {
    String values = tag.isNumeric() && !tag.hasTwoValues() ? "numbers from " + ValueText.number(tag.least()) + " to "
        + ValueText.number(tag.most()) : tag.hasMany() ? "many texts" : String.join("/", tag.words());
    return values + ", " + (!tag.isTimed() ? "its times are not understood"
        : Double.isNaN(tag.period()) ? "written as it changes" : "looked at every "
        + TimeText.duration(rounded(tag.period()))) + ", " + ValueText.count(tag.changes()) + (tag.changes() == 1
            ? " change" : " changes");
  }

  private static String question(ValueType type, SeenTag tag) {
    return type.match(bool -> "", enumeration -> "; write: where " + String.join(", ",
        tag.words().stream().map(code -> code + " = ...").toList()) + " of " + String.join(", ", enumeration.names()),
        quantity -> quantity.unit().isEmpty() ? "" : "; in " + quantity.unit() + "? else write: in UNIT");
  }

  /** Spellings of bools that the readers do not know by themselves. */
  private void values() {
    Map<String, Boolean> spellings = new LinkedHashMap<>();
    book.signals().stream().filter(signal -> signal.type().isBool()
        && chosen.containsKey(signal.index())).forEach(signal -> chosen.get(signal.index()).words().forEach(word -> {
      for (List<String> pair : PAIRS) {
        if (pair.contains(word.toLowerCase(Locale.ROOT)) && !word.equals("0")) {
          spellings.put(word, pair.get(0).equals(word.toLowerCase(Locale.ROOT)));
        }
      }
    }));
    List<String> entries = new ArrayList<>();
    for (boolean truth : new boolean[] {true, false}) {
      List<String> words = spellings.entrySet().stream().filter(entry -> entry.getValue() == truth)
          .map(entry -> BindingsFile.word(entry.getKey())).toList();
      if (!words.isEmpty()) {
        entries.add(truth + " " + String.join(", ", words));
      }
    }
    section("values", entries);
  }

  private void sampling() {
    List<String> entries = new ArrayList<>();
    book.signals().stream().filter(signal -> chosen.containsKey(signal.index())
        && !Double.isNaN(chosen.get(signal.index()).period())).forEach(signal -> entries.add(signal.name() + " every "
            + TimeText.duration(rounded(chosen.get(signal.index()).period()))));
    section("sampling", entries);
  }

  /** Up to whole milliseconds, but for what a date in seconds cannot tell. */
  private static long rounded(double seconds) {
    return (long) Math.ceil(seconds * 1000 - 0.01) * 1_000_000L;
  }
}
