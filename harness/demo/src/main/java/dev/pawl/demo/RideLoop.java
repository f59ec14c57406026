package dev.pawl.demo;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.plant.layout.RideLayout;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.function.LongPredicate;
import java.util.stream.Stream;

/**
 * The demo ride around a controller that is not its own: tells a sink of its inputs, scan by scan, and is told of
 * outputs through {@link #event}. What it is told up to a scan moves the ride until the next. Deterministic, and to be
 * run once.
 */
public final class RideLoop implements EventSink {

  private static final long SCAN = Math.round(BlockController.SCAN * 1e9);
  private static final long START = TraceLog.START.getEpochSecond() * 1_000_000_000L;
  /** Scans between looks at the gaps between trains; none moves more than 3 m in that time. */
  private static final int GAP_EVERY = 10;
  private static final Tag[] INPUTS = Arrays.copyOfRange(Tag.all(), 0, Tag.LIFT_RUN.ordinal());
  private static final Tag[] OUTPUTS = Arrays.copyOfRange(Tag.all(), Tag.LIFT_RUN.ordinal(), Tag.all().length);

  private final Scenario scenario;
  private final RideDay day;
  private final int[] signals = new int[Tag.all().length];
  private final Tag[] outputs;
  private final ValueType[] types;
  private final double[] told = new double[INPUTS.length];
  private long events;
  private boolean touching;
  private long collisions;
  private long firstCollision;

  private RideLoop(Scenario scenario, RideLayout layout, RuleBook book) {
    this.scenario = scenario;
    this.day = new RideDay(scenario, layout);
    this.outputs = new Tag[book.signals().size()];
    this.types = book.signals().stream().map(Signal::type).toArray(ValueType[]::new);
    for (Tag tag : Tag.all()) {
      signals[tag.ordinal()] = signal(book, tag).orElseThrow().index();
    }
    for (Tag tag : OUTPUTS) {
      outputs[signals[tag.ordinal()]] = tag;
    }
  }

  /**
   * A loop at its start.
   *
   * @param rideFolder the folder that holds {@code kestrel-ridge.track}
   * @param scenario the name of one of {@link #scenarios}
   * @param book whose signals bear the names of the demo ride's; {@link #missing} says which it lacks
   * @throws IOException where the layout cannot be read
   * @throws dev.pawl.plant.layout.LayoutException where it has a mistake
   */
  public static RideLoop open(Path rideFolder, String scenario, RuleBook book) throws IOException {
    Scenario found = all().filter(each -> each.name().equals(scenario)).findFirst()
        .orElseThrow(() -> new IllegalArgumentException("no scenario " + scenario));
    return new RideLoop(found, DemoTraces.layout(rideFolder), book);
  }

  private static Stream<Scenario> all() {
    return Stream.concat(Scenarios.all().stream(), Drills.all().stream());
  }

  /**
   * The names of all scenarios. What is wrong with the recorded ones' logic plays no part here: the logic comes from
   * outside.
   */
  public static List<String> scenarios() {
    return all().map(Scenario::name).toList();
  }

  /** The demo ride's signals that a rule book lacks, or has with another kind of type. */
  public static List<String> missing(RuleBook book) {
    return Arrays.stream(Tag.all()).filter(tag -> signal(book, tag).isEmpty()).map(Tag::label).toList();
  }

  private static Optional<Signal> signal(RuleBook book, Tag tag) {
    return book.signals().stream().filter(signal -> signal.name().equals(tag.label())
        && fits(tag, signal.type())).findFirst();
  }

  private static boolean fits(Tag tag, ValueType type) {
    return switch (tag.kind()) {
      case SWITCH -> type instanceof ValueType.Bool;
      case MODE -> type instanceof ValueType.Enumeration names
          && names.names().equals(Arrays.stream(OperatingMode.values()).map(OperatingMode::label).toList());
      case NUMBER -> type instanceof ValueType.Quantity;
    };
  }

  /** Takes an output of the controller under test; other signals, and values that are not known, change nothing. */
  @Override
  public void event(long time, int signal, long value, long line) {
    Tag tag = outputs[signal];
    if (tag != null && value != UNKNOWN) {
      day.image().set(tag, types[signal] instanceof ValueType.Quantity unit
          ? unit.toWritten(Double.longBitsToDouble(value)) : value);
    }
  }

  @Override
  public void advanceTo(long time) {}

  /**
   * Runs the whole scenario.
   *
   * @param controls takes the inputs; what it does with time up to a scan has to reach {@link #event} within
   *     {@code advanceTo}
   * @param goesOn asked at every scan, by its number, whether to go on
   * @return nanoseconds since 1970, time of the last scan
   */
  public long run(EventSink controls, LongPredicate goesOn) {
    long time = START;
    for (int scan = 0; scan <= scenario.scans() && goesOn.test(scan); scan++) {
      time = START + scan * SCAN;
      controls.advanceTo(time);
      day.move(scan);
      tell(controls, time, scan == 0);
      if (scan % GAP_EVERY == 0) {
        look(time);
      }
    }
    return time;
  }

  private void look(long time) {
    boolean touch = day.smallestGap() <= 0;
    if (touch && !touching && collisions++ == 0) {
      firstCollision = time;
    }
    touching = touch;
  }

  private void tell(EventSink controls, long time, boolean first) {
    for (Tag tag : INPUTS) {
      double value = day.image().value(tag);
      if (first || value != told[tag.ordinal()]) {
        told[tag.ordinal()] = value;
        events++;
        controls.event(time, signals[tag.ordinal()], engineValue(types[signals[tag.ordinal()]], value), 0);
      }
    }
  }

  private static long engineValue(ValueType type, double value) {
    return type instanceof ValueType.Quantity unit ? Double.doubleToRawLongBits(unit.toSi(value))
        : (long) value;
  }

  /** How often one train ran into another. */
  public long collisions() {
    return collisions;
  }

  /** When that happened first, nanoseconds since 1970; of no meaning where it never did. */
  public long firstCollision() {
    return firstCollision;
  }

  /** How many events it told so far. */
  public long events() {
    return events;
  }

  /** How many scans the scenario has. */
  public long scans() {
    return scenario.scans() + 1L;
  }
}
