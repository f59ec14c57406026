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
import java.util.LinkedHashMap;
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

  /** Instances whose values are looked for, each by a run of its own. */
  private static final int MOST_INSTANCES = 8;

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
      CheckedProgram program = other.get().program();
      List<DrawnSheet> sheets = DrawnSheet.of(shown);
      look(other.get(), all, sheets.stream().filter(sheet -> sheet.isRunOnce(program)).map(sheet -> new Sheet(sheet,
          Optional.empty(), program)).toList(), List.of());
      Map<Instance, List<Wanted>> instances = new LinkedHashMap<>();
      all.stream().filter(each -> each.drawing.isEmpty()).forEach(each -> sheets.forEach(sheet ->
          shown.mark(sheet.unit()).flatMap(mark -> Instance.of(path(each.event.signal()),
              mark, program)).ifPresent(it -> instances.computeIfAbsent(it, unused -> new ArrayList<>()).add(each))));
      int left = MOST_INSTANCES;
      for (Map.Entry<Instance, List<Wanted>> each : instances.entrySet()) {
        if (left-- > 0) {
          Instance instance = each.getKey();
          look(other.get(), each.getValue().stream().distinct().toList(), sheets.stream().filter(sheet -> shown.mark(
              sheet.unit()).filter(instance.mark()::equals).isPresent()).map(sheet ->
                  new Sheet(sheet, Optional.of(instance.path()), program)).toList(), instance.marks(program));
        }
      }
      return true;
    } catch (IOException e) {
      return false;
    }
  }

  private void look(LogicFiles shown, List<Wanted> wanted, List<Sheet> sheets, List<Mark> marks) throws IOException {
    Look look = new Look(wanted, sheets, marks);
    source.shown(shown, look, () -> look.next < wanted.size());
    look.settle(Long.MAX_VALUE);
  }

  /** The path of the variable that a signal is. */
  private String path(String signal) {
    int index = book.signals().stream().filter(it -> it.name().equals(signal)).findFirst().map(Signal::index)
        .orElseThrow();
    return source.controller().binding().variable(index).orElse(signal);
  }

  private String variable(String signal) {
    String path = path(signal);
    return path.substring(path.lastIndexOf('.') + 1);
  }

  /**
   * An instance of a unit that several run.
   *
   * @param path of the instance
   * @param mark the name of its variable that says whether its values are kept
   */
  private record Instance(String path, String mark) {

    /** The innermost instance with such a mark that a variable is in. */
    static Optional<Instance> of(String variable, String mark, CheckedProgram program) {
      for (int dot = variable.lastIndexOf('.'); dot > 0; dot = variable.lastIndexOf('.', dot - 1)) {
        String path = variable.substring(0, dot);
        if (program.symbols().containsKey((path + "." + mark).toUpperCase(Locale.ROOT))) {
          return Optional.of(new Instance(path, mark));
        }
      }
      return Optional.empty();
    }

    /** The marks of all instances of its unit. */
    List<Mark> marks(CheckedProgram program) {
      return program.symbols().values().stream().filter(symbol -> symbol.path().endsWith("." + mark)).map(symbol ->
          new Mark(symbol.address(), symbol.path().equalsIgnoreCase(path + "." + mark) ? 1 : 0)).toList();
    }
  }

  /** A mark and what it has to be. */
  private record Mark(int address, long word) {}

  /** A network or chart with the values of its last evaluation. */
  private static final class Sheet {
    private final DrawnSheet drawn;
    private final Optional<String> instance;
    private final int evaluated;
    private final List<CheckedProgram.Symbol> symbols;
    private final long[] words;
    private long time = Long.MIN_VALUE;

    Sheet(DrawnSheet drawn, Optional<String> instance, CheckedProgram program) {
      this.drawn = drawn;
      this.instance = instance;
      this.evaluated = program.symbol(drawn.evaluated()).map(CheckedProgram.Symbol::address).orElse(-1);
      this.symbols = drawn.names().stream().flatMap(name -> program.symbol(name).stream())
          .filter(symbol -> symbol.type().stored().isPresent()).toList();
      this.words = new long[symbols.size()];
    }

    /**
     * Takes down what was evaluated in a scan.
     *
     * @param known whether it is known whose values these are
     */
    void look(long now, ScanMachine machine, boolean known) {
      if (evaluated >= 0 && machine.wordAt(evaluated) != 0) {
        machine.setWordAt(evaluated, 0);
        time = known ? now : Long.MIN_VALUE;
        for (int i = 0; i < words.length; i++) {
          words[i] = machine.wordAt(symbols.get(i).address());
        }
      }
    }

    Drawing drawing(String signal, String variable) {
      Drawing drawing = drawn.drawing(signal, variable, time, values());
      return new Drawing(drawing.title() + instance.map(path -> ", as " + path).orElse(""), drawing.signal(),
          drawing.time(), drawing.boxes(), drawing.wires());
    }

    private Map<String, String> values() {
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
    private final List<Sheet> sheets;
    private final List<Mark> marks;
    private int next;

    Look(List<Wanted> all, List<Sheet> sheets, List<Mark> marks) {
      this.all = all;
      this.sheets = sheets;
      this.marks = marks;
    }

    @Override
    public void scanned(long time, LineResults lines) {
      // What lines come to is not asked for.
    }

    @Override
    public void scanned(long time, ScanMachine machine) {
      settle(time);
      boolean marked = marked(machine);
      for (int i = 0; i < sheets.size(); i++) {
        sheets.get(i).look(time, machine, marked);
      }
    }

    /** Whether the marks were in this scan what they have to be, as they are from now on. */
    private boolean marked(ScanMachine machine) {
      boolean marked = true;
      for (int i = 0; i < marks.size(); i++) {
        Mark mark = marks.get(i);
        marked &= machine.wordAt(mark.address()) == mark.word();
        machine.setWordAt(mark.address(), mark.word());
      }
      return marked;
    }

    /** Takes down what is wanted of instants before a time. */
    private void settle(long time) {
      while (next < all.size() && all.get(next).instant < time) {
        Wanted each = all.get(next++);
        String variable = variable(each.event.signal()).toUpperCase(Locale.ROOT);
        List<Sheet> here = sheets.stream().filter(sheet -> sheet.time != Long.MIN_VALUE
            && sheet.drawn.writes(each.line(), variable)).toList();
        if (here.size() == 1) {
          each.drawing = Optional.of(here.get(0).drawing(each.event.signal(), variable));
        }
      }
    }
  }
}
