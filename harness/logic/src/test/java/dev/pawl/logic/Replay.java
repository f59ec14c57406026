package dev.pawl.logic;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.logic.model.CheckedProgram;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.logic.code.ProgramCompiler;
import java.util.List;
import java.util.Map;

/** A harness with a log for a judge, fed by hand. Times are in milliseconds. */
final class Replay {

  final EventLog log;
  private final LogicHarness harness;
  private final RuleBook book;
  private long line = 1;

  Replay(String program, Books books, ScanOptions options) {
    this(program, books, options, LogicOptions.DEFAULT);
  }

  Replay(String program, Books books, ScanOptions options, LogicOptions logic) {
    this(TestMachine.check(program), books, options, logic);
  }

  private Replay(CheckedProgram checked, Books books, ScanOptions options, LogicOptions logic) {
    this(checked, SignalBinding.bind(checked, books.book(), Map.of()), books, options, logic);
  }

  /** A program whose variables are bound otherwise than by their names. */
  Replay(CheckedProgram checked, SignalBinding binding, Books books, ScanOptions options) {
    this(checked, binding, books, options, LogicOptions.DEFAULT);
  }

  private Replay(CheckedProgram checked, SignalBinding binding, Books books, ScanOptions options, LogicOptions logic) {
    book = books.book();
    assertThat(binding.diagnostics()).filteredOn(diagnostic -> diagnostic.isError()).isEmpty();
    log = new EventLog(book, checked.files());
    try {
      harness = new LogicHarness(LogicProgram.compile(checked, logic, binding.recorded()), binding, book, options, log);
    } catch (ProgramCompiler.TooLarge tooLarge) {
      throw new AssertionError(tooLarge);
    }
  }

  Replay at(double milliseconds, String signal, long value) {
    int index = book.signals().stream().filter(each -> each.name().equals(signal)).findFirst().orElseThrow().index();
    harness.event(Math.round(milliseconds * 1e6), index, value, ++line);
    return this;
  }

  Replay at(double milliseconds, String signal, double value) {
    return at(milliseconds, signal, Double.doubleToRawLongBits(value));
  }

  Replay advance(double milliseconds) {
    harness.advanceTo(Math.round(milliseconds * 1e6));
    return this;
  }

  LogicOutcome end(double milliseconds) {
    return harness.finish(Math.round(milliseconds * 1e6));
  }

  List<String> lines() {
    return log.lines;
  }
}
