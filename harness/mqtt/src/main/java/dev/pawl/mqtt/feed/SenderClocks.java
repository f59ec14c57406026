package dev.pawl.mqtt.feed;

import dev.pawl.mqtt.binding.TopicBinding;
import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.mqtt.time.SenderClock;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;

/**
 * The clocks of all senders that state times, each against the harness's. Whether two topics are told by one clock
 * cannot be seen: those whose clocks agree within the tolerance share one offset, so that the order of their stated
 * times is kept.
 */
public final class SenderClocks {

  /** How long what states its time may be on its way, unless stated. */
  public static final Duration USUAL_WINDOW = Duration.ofMillis(200);

  private static final String THIS_MACHINE = "";
  private static final long LEAST_TOLERANCE = Duration.ofMillis(1).toNanos();

  /** Takes the news that a clock's offset was set anew, before the value that showed it is placed. */
  interface Correction {
    void corrected(List<Integer> signals, long forward);
  }

  /** Signals whose times one clock states. */
  public record Sender(List<Integer> signals, SenderClock clock) {}

  private final TopicBindings bindings;
  private final long window;
  private final List<Sender> senders = new ArrayList<>();
  private final Map<Integer, Sender> bySignal = new HashMap<>();

  /**
   * The clocks of those that send on bound topics; none is taken to be off its estimate by more than half the window.
   */
  public SenderClocks(TopicBindings bindings, Duration window) {
    this.bindings = bindings;
    Map<String, Sender> byName = new HashMap<>();
    for (TopicBinding binding : bindings.list()) {
      binding.sender().ifPresent(name -> {
        Sender sender = byName.computeIfAbsent(name, n -> add(window));
        sender.signals().add(binding.signal());
        bySignal.put(binding.signal(), sender);
      });
    }
    this.window = senders.isEmpty() ? 0 : window.toNanos();
  }

  private Sender add(Duration window) {
    Sender sender = new Sender(new ArrayList<>(), new SenderClock(Math.max(LEAST_TOLERANCE, window.toNanos() / 2)));
    senders.add(sender);
    return sender;
  }

  /** Nanoseconds to wait for what may still come out of order; 0 where nothing states its time. */
  public long window() {
    return window;
  }

  /**
   * Nanoseconds by which the times of these signals can be off each other: none where one clock tells them all, else as
   * long as the window.
   */
  public long uncertainty(Set<Integer> signals) {
    Set<String> clocks = new TreeSet<>();
    signals.forEach(signal -> bindings.of(signal).ifPresent(binding ->
        clocks.add(binding.sender().orElse(THIS_MACHINE))));
    return clocks.size() > 1 ? window : 0;
  }

  /** The harness's time of what its sender states to have been at another. */
  long harnessTime(int signal, long stated, long arrival, Correction correction) {
    Sender sender = bySignal.get(signal);
    SenderClock clock = sender.clock();
    if (clock.sample(stated, arrival)) {
      boolean first = !clock.isKnown();
      long before = clock.offset();
      clock.set(shared(clock));
      if (!first) {
        correction.corrected(sender.signals(), before - clock.offset());
      }
    }
    return stated + clock.offset();
  }

  private long shared(SenderClock clock) {
    return senders.stream().map(Sender::clock).filter(other -> other != clock
        && other.agrees(clock.wanted())).findFirst()
        .map(SenderClock::offset).orElse(clock.wanted());
  }

  /** Senders that have stated a time. */
  public List<Sender> heard() {
    return senders.stream().filter(sender -> sender.clock().isKnown()).toList();
  }
}
