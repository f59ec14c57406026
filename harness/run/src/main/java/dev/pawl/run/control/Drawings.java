package dev.pawl.run.control;

import dev.pawl.engine.Evidence;
import dev.pawl.grammar.logic.drawn.Shown;
import dev.pawl.grammar.logic.model.CheckedProgram;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.logic.LineWitness;
import dev.pawl.logic.ScanMachine;
import dev.pawl.logic.runtime.LineResults;
import dev.pawl.report.model.Drawing;
import dev.pawl.report.model.EvidenceResult;
import dev.pawl.report.model.FindingResult;
import dev.pawl.report.model.RuleResult;
import dev.pawl.report.model.TraceResult;
import dev.pawl.run.files.LogicFiles;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * Puts to findings what wrote the outputs that they are about, as it was drawn and with values. Which line wrote an
 * output is known; the values come out of one more run, of a translation that keeps what the elements of these networks
 * and charts come to.
 */
final class Drawings {

  /** Drawings of one finding. */
  private static final int MOST = 2;

  private final LogicSource source;
  private final RuleBook book;
  private final LogicFiles files;
  private final Map<FindingResult, List<Wanted>> wanted = new HashMap<>();

  private Drawings(LogicSource source, RuleBook book) {
    this.source = source;
    this.book = book;
    this.files = source.controller().files();
  }

  static Drawings of(LogicSource source, RuleBook book) {
    return new Drawings(source, book);
  }

  /** One drawing, as soon as it is known. */
  private static final class Wanted {
    private final EvidenceResult event;
    private final long instant;
    private Optional<Drawing> drawing = Optional.empty();

    Wanted(EvidenceResult event, long instant) {
      this.event = event;
      this.instant = instant;
    }

    Shown.Line line() {
      return new Shown.Line(event.writtenBy().orElseThrow().file(), event.writtenBy().orElseThrow().line());
    }

    boolean isLike(Wanted other) {
      return line().equals(other.line()) && event.signal().equals(other.event.signal());
    }
  }

  /** The result with drawings where it has findings with pictures. */
  TraceResult added(TraceResult result) {
    result.rules().forEach(rule -> rule.broken().stream().filter(finding -> finding.picture().isPresent()
        && finding.supposing().isEmpty()).forEach(this::want));
    List<Wanted> all = wanted.values().stream().flatMap(List::stream)
        .sorted(Comparator.comparingLong((Wanted it) -> it.instant)).toList();
    if (all.isEmpty() || !draw(all)) {
      return result;
    }
    return result.withRules(result.rules().stream().map(rule -> new RuleResult(rule.rule(), rule.obligations(),
        rule.margin(), rule.seen(), rule.broken().stream().map(this::drawn).toList(), rule.doubtful())).toList());
  }

  private FindingResult drawn(FindingResult finding) {
    List<Drawing> drawings = wanted.getOrDefault(finding, List.of()).stream().flatMap(it -> it.drawing.stream())
        .toList();
    return drawings.isEmpty() ? finding : finding.withDrawings(drawings);
  }

  /** What wrote the outputs behind a finding: those that it broke on first. */
  private void want(FindingResult finding) {
    List<Wanted> here = new ArrayList<>();
    for (Evidence.Moment moment : List.of(Evidence.Moment.BREAK, Evidence.Moment.TRIGGER)) {
      for (EvidenceResult event : finding.evidence()) {
        if (event.moment() == moment && event.writtenBy().filter(place -> files.legends().containsKey(place.file()))
            .isPresent()) {
          boolean breaks = moment == Evidence.Moment.BREAK;
          Wanted one = new Wanted(event, breaks ? finding.time() : finding.trigger());
          if (here.size() < MOST && here.stream().noneMatch(one::isLike)) {
            here.add(one);
          }
        }
      }
    }
    if (!here.isEmpty()) {
      wanted.put(finding, here);
    }
  }

  private boolean draw(List<Wanted> all) {
    Set<Shown.Line> lines = new HashSet<>();
    all.forEach(each -> lines.add(each.line()));
    Shown shown = new Shown(lines);
    Optional<LogicFiles> other = files.showing(shown);
    if (other.isEmpty()) {
      return false;
    }
    try {
      Look look = new Look(all, shown, other.get().program());
      source.shown(other.get(), look, () -> look.next < all.size());
      look.settle(Long.MAX_VALUE);
      return true;
    } catch (IOException e) {
      return false;
    }
  }

  private String variable(String signal) {
    int index = book.signals().stream().filter(it -> it.name().equals(signal)).findFirst().map(Signal::index)
        .orElseThrow();
    String path = source.controller().binding().variable(index).orElse(signal);
    return path.substring(path.lastIndexOf('.') + 1);
  }

  /** A network or chart with the values of its last evaluation. */
  private static final class Sheet {
    private final DrawnSheet drawn;
    private final int evaluated;
    private final List<CheckedProgram.Symbol> symbols;
    private final long[] words;
    private long time = Long.MIN_VALUE;

    Sheet(DrawnSheet drawn, CheckedProgram program) {
      this.drawn = drawn;
      this.evaluated = program.symbol(drawn.evaluated()).map(CheckedProgram.Symbol::address).orElse(-1);
      this.symbols = drawn.names().stream().flatMap(name -> program.symbol(name).stream())
          .filter(symbol -> symbol.type().stored().isPresent()).toList();
      this.words = new long[symbols.size()];
    }

    void look(long now, ScanMachine machine) {
      if (evaluated >= 0 && machine.wordAt(evaluated) != 0) {
        machine.setWordAt(evaluated, 0);
        time = now;
        for (int i = 0; i < words.length; i++) {
          words[i] = machine.wordAt(symbols.get(i).address());
        }
      }
    }

    Map<String, String> values() {
      Map<String, String> values = new HashMap<>();
      for (int i = 0; i < words.length; i++) {
        values.put(symbols.get(i).path(), WordText.of(symbols.get(i).type(), words[i]));
      }
      return values;
    }
  }

  /** Keeps what the sheets were last, and takes it down at each instant that is wanted. */
  private final class Look implements LineWitness {
    private final List<Wanted> all;
    private final List<Sheet> sheets = new ArrayList<>();
    private int next;

    Look(List<Wanted> all, Shown shown, CheckedProgram program) {
      this.all = all;
      DrawnSheet.of(shown).stream().filter(sheet -> sheet.isRunOnce(program))
          .forEach(sheet -> sheets.add(new Sheet(sheet, program)));
    }

    @Override
    public void scanned(long time, LineResults lines) {
      // What lines come to is not asked for.
    }

    @Override
    public void scanned(long time, ScanMachine machine) {
      settle(time);
      for (int i = 0; i < sheets.size(); i++) {
        sheets.get(i).look(time, machine);
      }
    }

    /** Takes down what is wanted of instants before a time. */
    private void settle(long time) {
      while (next < all.size() && all.get(next).instant < time) {
        Wanted each = all.get(next++);
        String variable = variable(each.event.signal()).toUpperCase(Locale.ROOT);
        List<Sheet> here = sheets.stream().filter(sheet -> sheet.time != Long.MIN_VALUE
            && sheet.drawn.writes(each.line(), variable)).toList();
        if (here.size() == 1) {
          each.drawing = Optional.of(here.get(0).drawn.drawing(each.event.signal(), variable, here.get(0).time,
              here.get(0).values()));
        }
      }
    }
  }
}
