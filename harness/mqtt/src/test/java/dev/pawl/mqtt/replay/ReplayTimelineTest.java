package dev.pawl.mqtt.replay;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** Trace time beside the clock's: the trace starts at 1000 when the clock shows 50, and runs twice as fast. */
class ReplayTimelineTest {

  private final ReplayTimeline timeline = new ReplayTimeline(new Pace(2), 0);

  ReplayTimelineTest() {
    timeline.start(1000, 50);
  }

  @Test
  void runsAtItsPaceFromTheFirstInputOn() {
    assertThat(timeline.due(1100)).isEqualTo(100);
    assertThat(timeline.ofArrival(100)).isEqualTo(1100);
    assertThat(timeline.ofArrival(20)).isEqualTo(1000);
  }

  @Test
  void standsStillWhereItIsStoppedAndGoesOnFromThere() {
    timeline.stop(1100);
    assertThat(timeline.ofArrival(90)).isEqualTo(1080);
    assertThat(timeline.ofArrival(500)).isEqualTo(1100);

    timeline.goOn(600);
    assertThat(timeline.due(1100)).isEqualTo(600);
    assertThat(timeline.due(1120)).isEqualTo(610);
    assertThat(timeline.ofArrival(610)).isEqualTo(1120);
  }

  /** The queue may be behind: what arrived before the trace went on is placed as it would have been then. */
  @Test
  void placesWhatArrivedBeforeOrWhileItStoodAfterwardsToo() {
    timeline.stop(1100);
    timeline.goOn(600);
    timeline.stop(1200);
    timeline.goOn(900);

    assertThat(timeline.ofArrival(90)).isEqualTo(1080);
    assertThat(timeline.ofArrival(300)).isEqualTo(1100);
    assertThat(timeline.ofArrival(620)).isEqualTo(1140);
    assertThat(timeline.ofArrival(800)).isEqualTo(1200);
    assertThat(timeline.ofArrival(905)).isEqualTo(1210);
  }

  @Test
  void goesOnAsBeforeWhereItDidNotStand() {
    timeline.goOn(600);
    assertThat(timeline.due(1100)).isEqualTo(100);
  }
}
