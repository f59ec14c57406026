package dev.pawl.report.picture;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.EventSink;
import dev.pawl.report.SampleRide;
import dev.pawl.report.model.Picture;
import dev.pawl.report.model.TraceResult;
import org.junit.jupiter.api.Test;

class PictureRecorderTest {

  private static final long MS = SampleRide.MS;

  @Test
  void theSignalsAroundAFindingAreRecordedWithWhatTheyWereBefore() {
    Picture picture = draw(2).rules().get(0).broken().get(0).picture().orElseThrow();
    assertThat(picture.tracks()).extracting(Picture.Track::signal).containsExactly("estop_chain", "lift_run");
    Picture.Track estop = picture.tracks().get(0);
    assertThat(estop.times()).containsExactly(0, 723_450 * MS);
    assertThat(estop.values()).containsExactly(1, 0);
    Picture.Track run = picture.tracks().get(1);
    assertThat(run.times()).containsExactly(700_010 * MS, 724_200 * MS);
    assertThat(picture.from()).isLessThan(723_450 * MS);
    assertThat(picture.to()).isBetween(724_200 * MS, 725_000 * MS);
  }

  @Test
  void aZonesFlagsAreRecordedAndUnknownStaysUnknown() {
    Picture picture = draw(2).zones().get(0).findings().get(0).picture().orElseThrow();
    assertThat(picture.tracks()).extracting(Picture.Track::signal)
        .containsExactly("crest_flag", "base_flag", "occupied(lift)");
    assertThat(picture.tracks().get(0).values()).containsExactly(1, Double.NaN, 0);
  }

  @Test
  void onlyAsManyPicturesAreMadeAsWereAskedFor() {
    TraceResult drawn = draw(1);
    assertThat(drawn.rules().get(0).broken().get(0).picture()).isPresent();
    assertThat(drawn.rules().get(0).broken().get(1).picture()).isEmpty();
  }

  @Test
  void itSaysWhenItHasEnough() {
    PictureRecorder recorder = new PictureRecorder(SampleRide.book(), SampleRide.trace(), 1);
    assertThat(recorder.hasEnough()).isFalse();
    SampleRide.play(recorder);
    recorder.advanceTo(901_000 * MS);
    assertThat(recorder.hasEnough()).isTrue();
    assertThat(new PictureRecorder(SampleRide.book(), SampleRide.trace(), 0).hasEnough()).isTrue();
  }

  @Test
  void aChatteringSignalIsCutAndSaidToBe() {
    PictureRecorder recorder = new PictureRecorder(SampleRide.book(), SampleRide.trace(), 1);
    for (int i = 0; i < 10 * PictureStretch.MOST_POINTS; i++) {
      recorder.event(723_450 * MS + i, SampleRide.LIFT_RUN, i % 2, i);
    }
    Picture.Track track = recorder.result().rules().get(0).broken().get(0).picture().orElseThrow().tracks().get(1);
    assertThat(track.cut()).isTrue();
    assertThat(track.times()).hasSize(PictureStretch.MOST_POINTS);
  }

  private static TraceResult draw(int most) {
    PictureRecorder recorder = new PictureRecorder(SampleRide.book(), SampleRide.trace(), most);
    SampleRide.play((EventSink) recorder);
    return recorder.result();
  }
}
