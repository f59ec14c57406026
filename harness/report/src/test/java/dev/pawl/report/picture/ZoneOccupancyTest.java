package dev.pawl.report.picture;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.EventSink;
import dev.pawl.engine.RuleEngine;
import dev.pawl.grammar.rules.RuleLanguage;
import dev.pawl.grammar.rules.SourceLoader;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.source.Source;
import dev.pawl.report.collect.FindingCollector;
import dev.pawl.report.collect.ResultBuilder;
import dev.pawl.report.model.Picture;
import dev.pawl.report.model.Reading;
import dev.pawl.report.model.TimeBase;
import dev.pawl.report.model.TraceResult;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** The course of occupancy, worked out by hand from the flags. */
class ZoneOccupancyTest {

  private static final long S = 1_000_000_000L;
  private static final int ENTRY = 0;
  private static final int EXIT = 1;
  private static final int GATE = 2;

  @Test
  void aZoneIsOccupiedFromTheEntryToTheExitAndUnknownAfterAMiscount() {
    List<String> changes = new ArrayList<>();
    ZoneOccupancy course = new ZoneOccupancy(book(), book().zones(), (time, zone, value) ->
        changes.add(time / S + " " + (value == EventSink.UNKNOWN ? "unknown" : value == 1 ? "occupied" : "free")));
    flag(course, 0, ENTRY, 0);
    flag(course, 0, EXIT, 0);
    flag(course, 10, ENTRY, 1);
    flag(course, 12, ENTRY, 0);
    flag(course, 20, EXIT, 1);
    flag(course, 22, EXIT, 0);
    flag(course, 30, ENTRY, 1);
    flag(course, 31, ENTRY, 0);
    flag(course, 32, ENTRY, 1);
    flag(course, 33, ENTRY, 0);
    flag(course, 40, EXIT, 1);
    flag(course, 42, EXIT, 0);
    flag(course, 51, ENTRY, 1);
    course.finish();
    assertThat(changes).containsExactly("0 free", "10 occupied", "22 free", "30 occupied", "42 unknown", "51 occupied");
  }

  @Test
  void theFindingOfARuleAboutAZoneShowsItsOccupancyAlthoughTheFlagsAreLongClear() {
    RuleBook book = book();
    FindingCollector collector = new FindingCollector(book, 5);
    RuleEngine engine = new RuleEngine(book, EngineOptions.DEFAULT, collector);
    play(engine);
    TraceResult judged = new ResultBuilder(book, "day.csv", TimeBase.START)
        .build(engine.finish(), collector, Reading.CLEAN, 8, 8, false);
    PictureRecorder recorder = new PictureRecorder(book, judged, 5);
    play(recorder);
    Picture picture = recorder.result().rules().get(0).broken().get(0).picture().orElseThrow();
    assertThat(picture.tracks()).extracting(Picture.Track::signal)
        .containsExactly("gate", "entry", "leaving", "occupied(lift)");
    Picture.Track occupancy = picture.tracks().get(3);
    assertThat(occupancy.times()).containsExactly(0L, 10 * S, 22 * S);
    assertThat(occupancy.values()).containsExactly(0, 1, 0);
    assertThat(picture.from()).isLessThan(10 * S);
  }

  private static void play(EventSink sink) {
    sink.event(0, ENTRY, 0, 2);
    sink.event(0, EXIT, 0, 3);
    sink.event(0, GATE, 0, 4);
    sink.event(10 * S, ENTRY, 1, 5);
    sink.event(12 * S, ENTRY, 0, 6);
    sink.event(20 * S, GATE, 1, 7);
    sink.event(20 * S + 1, EXIT, 1, 8);
    sink.event(22 * S, EXIT, 0, 9);
    sink.event(60 * S, GATE, 0, 10);
    sink.advanceTo(100 * S);
  }

  private static void flag(ZoneOccupancy course, long second, int signal, long value) {
    course.event(second * S, signal, value, 0);
  }

  private static RuleBook book() {
    return RuleLanguage.compile(List.of(new Source("lift.rules", """
        input entry, leaving, gate : bool
        zone lift enter rises(entry) leave falls(leaving) starts with 0
        rule R-1 "No dispatch while the lift is taken" basis practice
          when rises(gate) must not occupied(lift)
        """)), SourceLoader.none()).book().orElseThrow();
  }
}
