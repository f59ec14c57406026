package dev.pawl.mqtt.feed;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.EventSink;
import dev.pawl.mqtt.support.FullDisk;
import dev.pawl.mqtt.support.Ride;
import dev.pawl.trace.time.TimeScale;
import java.io.IOException;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A recording that continues an earlier one: its lines, and what a full disk leaves of both. */
class RecordingTest {

  private static final String EARLIER = "time_ns,signal,value,quality\n5,near_flag,1,good\n";

  @TempDir
  private Path folder;

  private Recording continued(SeekableByteChannel channel) throws IOException {
    channel.position(EARLIER.length());
    return new Recording(() -> new RowFile(channel, EARLIER.length()),
        Optional.of(new Recording.Earlier(2, 5, List.of(Ride.signal("near_flag")))), Ride.BOOK.signals(),
        TimeScale.NANOSECONDS);
  }

  @Test
  void theJudgeIsToldTheLinesOfTheWholeFile() throws IOException {
    Path file = Files.writeString(folder.resolve("kept.csv"), EARLIER);
    List<Long> lines = new ArrayList<>();
    EventSink judge = new EventSink() {
      @Override
      public void event(long time, int signal, long value, long line) {
        lines.add(line);
      }

      @Override
      public void advanceTo(long time) {
        lines.add(-1L);
      }
    };
    try (Recording recording = continued(Files.newByteChannel(file, StandardOpenOption.WRITE))) {
      RecordedStream stream = new RecordedStream(Optional.of(recording), judge);
      recording.begin();
      stream.event(7, Ride.signal("near_flag"), 1, 0);
      stream.event(8, Ride.signal("near_flag"), 0, 0);
      assertThat(stream.events()).isEqualTo(2);
    }
    assertThat(Files.readAllLines(file)).containsExactly("time_ns,signal,value,quality", "5,near_flag,1,good",
        "6,near_flag,,bad", "7,near_flag,1,good", "8,near_flag,0,good");
    assertThat(lines).containsExactly(4L, 5L);
  }

  @Test
  void aRecordingOfNothingStatesNoEnd() throws IOException {
    Path file = folder.resolve("kept.csv");
    SeekableByteChannel channel = Files.newByteChannel(file, StandardOpenOption.CREATE, StandardOpenOption.WRITE);
    try (Recording recording = new Recording(new RowFile(channel, 0), Ride.BOOK.signals(), TimeScale.NANOSECONDS)) {
      recording.end(Long.MIN_VALUE);
    }
    assertThat(file).hasContent("time_ns,signal,value,quality\n");
  }

  @Test
  void aFullDiskLeavesTheEarlierRecordingWhole() throws IOException {
    Path file = folder.resolve("kept.csv");
    SeekableByteChannel disk = FullDisk.after(file, EARLIER.length() + 5);
    Files.writeString(file, EARLIER);
    try (Recording recording = continued(disk)) {
      recording.begin();
      assertThat(recording.failure()).contains("No space left on device");
    }
    assertThat(file).hasContent(EARLIER);
  }
}
