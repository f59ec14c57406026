package dev.pawl.bench.operator;

import dev.pawl.bench.workload.Books;
import dev.pawl.bench.workload.CampaignFile;
import dev.pawl.bench.workload.EventColumns;
import dev.pawl.bench.workload.Unheard;
import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.groups.DividedEngine;
import dev.pawl.grammar.rules.model.RuleBook;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Level;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OperationsPerInvocation;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * One event's way through the engine. The campaign trace is brought again and again, each time later, so that the
 * engine has long come to rest: its queues have grown to what they need and no finding is told any more.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@Warmup(iterations = 4, time = 1)
@Measurement(iterations = 3, time = 1)
@Fork(value = 1, jvmArgsAppend = {"-Xmx512m", "-XX:+UseSerialGC"})
public class EventPath {

  private static final int BATCH = 10_000;
  private static final int ROWS = 500_000;

  /** The rules of {@link Forms}, by name. */
  @Param({"two rules", "forty rules"})
  public String form;

  private EventColumns events;
  private DividedEngine engine;
  private int next;
  private long later;

  /** Makes the engine and brings the trace once, with all findings told. */
  @Setup(Level.Trial)
  public void start() {
    events = EventColumns.of(CampaignFile.trace(ROWS));
    RuleBook book = switch (form) {
      case "two rules" -> Books.two();
      case "forty rules" -> Books.forty();
      default -> Books.of(Forms.RULES.get(form));
    };
    engine = new DividedEngine(book, EngineOptions.DEFAULT, new Unheard(), 1);
    events.replay(engine, 0, events.size(), 0);
    later = events.length();
  }

  /** Brings the next events. */
  @Benchmark
  @OperationsPerInvocation(BATCH)
  public DividedEngine events() {
    if (next + BATCH > events.size()) {
      next = 0;
      later += events.length();
    }
    events.replay(engine, next, next + BATCH, later);
    next += BATCH;
    return engine;
  }
}
