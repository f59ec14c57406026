package dev.pawl.mqtt.page;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.EventSink;
import dev.pawl.engine.RuleEngine;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.mqtt.support.Chromium;
import dev.pawl.mqtt.support.Ride;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.stream.IntStream;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The page as a picture of the ride: an invented one whose zones are not declared in the order of its track. */
class RideOnThePageTest {

  private static final long SECOND = 1_000_000_000L;
  private static final RuleBook BOOK = Ride.book("""
      ride "Gannet Cliff"
      input  platform_flag : bool
      input  foot_flag     : bool
      input  top_flag      : bool
      input  brake_flag    : bool
      input  estop_chain   : bool
      output lift_run      : bool
      output gate_release  : bool
      zone platform enter rises(platform_flag) leave falls(foot_flag)     holds 1 starts with 1
      zone gorge    enter rises(top_flag)      leave falls(brake_flag)    holds 1 starts with 0
      zone lift     enter rises(foot_flag)     leave falls(top_flag)      holds 1
      zone brakes   enter rises(brake_flag)    leave falls(platform_flag) holds 2 starts with 0
      rule GC-01 "No dispatch while a train is on the lift"
        basis practice
        when rises(gate_release)
        must not occupied(lift)
        tried by trigger
      rule GC-02 "Emergency stop stops the lift"
        basis practice
        when falls(estop_chain)
        must not lift_run within 500 ms
      rule GC-03 "No dispatch during a stop"
        basis practice
        when rises(gate_release)
        must estop_chain
      """);

  @TempDir
  private Path folder;
  private final LiveBoard board = new LiveBoard(BOOK);
  private final RuleEngine engine = new RuleEngine(BOOK, EngineOptions.DEFAULT, board);
  private final EventSink sink = board.before(engine);
  private LivePage page;
  private long time;

  @BeforeEach
  void show() throws Exception {
    page = new LivePage(0, board);
  }

  @AfterEach
  void close() {
    page.close();
  }

  private void say(String signal, long value) {
    int index = IntStream.range(0, BOOK.signals().size()).filter(i -> BOOK.signals().get(i).name().equals(signal))
        .findFirst().orElseThrow();
    sink.event(time, index, value, 0);
  }

  private void next() {
    time += SECOND;
    sink.advanceTo(time);
    board.draw(engine.soFar(), new LiveBoard.Feed(time, true, 10, 0, List.of("no message on ride/x"), List.of()));
  }

  private static void await(Callable<Boolean> condition) {
    Awaitility.await().atMost(Duration.ofSeconds(30)).pollInterval(Duration.ofMillis(100)).until(condition);
  }

  private static String all(Chromium browser, String selector) {
    return browser.evaluate("[...document.querySelectorAll('" + selector + "')].map(e => e.textContent).join('|')");
  }

  @Test
  void zonesStandInTrackOrderWithWhatIsCountedAndTheBoardIsTickedOff() throws Exception {
    assumeTrue(Chromium.isInstalled(), "Chromium is not installed");
    BOOK.signals().stream().filter(signal -> !signal.name().equals("brake_flag"))
        .forEach(signal -> say(signal.name(), signal.name().equals("estop_chain") ? 1 : 0));
    next();
    try (Chromium browser = Chromium.open(folder, page.address())) {
      await(() -> browser.text("ride").equals("Gannet Cliff"));
      await(() -> all(browser, "#track > li").equals("platform_flagoff|platform1train|foot_flagoff|lift0–1not proven|"
          + "top_flagoff|gorge0–1not proven|brake_flagunknown|brakes0–2not proven"));
      assertThat(browser.text("missing")).isEqualTo("no message on ride/x");
      assertThat(all(browser, "#unknown > li")).isEqualTo("brake_flag has no value yet (no rule)");
      assertThat(browser.text("progress")).isEqualTo("0 of 3 rules tried; what would try the others:");
      assertThat(all(browser, "#board .way")).isEqualTo("not yet: gate_release becomes true"
          + "|not yet: estop_chain becomes false, and just before it lift_run is true"
          + "|not yet: gate_release becomes true");

      say("foot_flag", 1);
      say("brake_flag", 0);
      next();
      await(() -> all(browser, "#track .fresh").contains("foot_flagon"));
      say("gate_release", 1);
      next();
      await(() -> browser.text("last").startsWith("brokenGC-01 No dispatch while a train is on the lift"));
      assertThat(browser.text("progress")).isEqualTo("2 of 3 rules tried; what would try the others:");
      assertThat(all(browser, "#board > li")).startsWith("GC-02");
      assertThat(all(browser, "#tried > li")).contains("done: gate_release becomes true");
      say("foot_flag", 0);
      say("top_flag", 1);
      say("top_flag", 0);
      next();
      say("top_flag", 1);
      next();
      await(() -> all(browser, "#track > li").contains("platform0empty|foot_flagoff|lift1train"));
    }
  }

  @Test
  void whatIsUnknownIsSaidOnceForTheSignalNotOnceForEachRule() {
    BOOK.signals().forEach(signal -> say(signal.name(), 0));
    next();
    say("estop_chain", 1);
    say("lift_run", 1);
    next();
    say("foot_flag", EventSink.UNKNOWN);
    say("estop_chain", EventSink.UNKNOWN);
    next();
    say("gate_release", 1);
    next();
    assertThat(picture()).containsOnlyOnce("\"subject\":\"estop_chain\"").contains("\"values\":\"GC-02, GC-03\"")
        .contains("{\"signal\":\"estop_chain\",\"since\":\"1970-01-01T00:00:02Z\",\"rules\":[\"GC-02\",\"GC-03\"]}");
  }

  private String picture() {
    try {
      return board.after(-1, 1).json();
    } catch (InterruptedException e) {
      throw new AssertionError(e);
    }
  }
}
