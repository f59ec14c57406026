package dev.pawl.run.control;

import dev.pawl.engine.EventSink;
import java.util.ArrayList;
import java.util.List;
import java.util.function.IntPredicate;

/** What a trace says of the outputs that a bench gives in their place, taken while it is looked through. */
final class RecordedOutputs implements EventSink {

  private final IntPredicate given;
  private final List<Row> rows = new ArrayList<>();

  /** One event of an output. */
  record Row(long time, int signal, long value) {}

  RecordedOutputs(IntPredicate given) {
    this.given = given;
  }

  @Override
  public void event(long time, int signal, long value, long line) {
    if (given.test(signal)) {
      rows.add(new Row(time, signal, value));
    }
  }

  @Override
  public void advanceTo(long time) {
    // Events bear their own times.
  }

  /** In order of time. */
  List<Row> rows() {
    return rows;
  }
}
