package dev.pawl.trace.survey;

import dev.pawl.trace.bytes.Decompression;
import dev.pawl.trace.bytes.Feed;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Looks through a log of which nothing is known yet: a table or JSON Lines, packed or not. */
public final class Surveyor {

  private static final int FIRST = 60;
  private static final int MOST_TAGS = 10_000;

  private final Map<String, SeenTag> tags = new LinkedHashMap<>();
  private final List<String> first = new ArrayList<>();
  private TableRows table;
  private ObjectRows objects;
  private final List<Integer> numbers = new ArrayList<>();
  private int fileLines;
  private int lines;

  private Surveyor() {}

  /**
   * Looks through a file.
   *
   * @throws IOException if it cannot be read, or is nothing that can be looked through; the message says why
   */
  public static LogSurvey survey(Path log) throws IOException {
    Surveyor surveyor = new Surveyor();
    try (Feed feed = Decompression.open(Files.newInputStream(log), Optional.empty())) {
      int from = feed.start();
      while (feed.next(from)) {
        from = surveyor.window(feed);
      }
      if (feed.damage().isPresent()) {
        throw new IOException(feed.damage().get() + "; " + feed.remedy());
      }
      if (!feed.exhausted()) {
        throw new IOException("line " + (surveyor.fileLines + 1) + " is longer than any row can be; give a log with a"
            + " line for each row");
      }
    }
    surveyor.begin();
    return surveyor.objects != null ? surveyor.objects.survey() : surveyor.table.survey(surveyor.numbers);
  }

  /** Takes the whole lines of a window; returns where the next begins. */
  private int window(Feed feed) throws IOException {
    int from = feed.start();
    for (int at = from; at < feed.end(); at++) {
      if (feed.bytes()[at] == '\n') {
        line(new String(feed.bytes(), from, at - from, StandardCharsets.UTF_8).replace("\r", "").replace("\uFEFF", ""));
        from = at + 1;
      }
    }
    return from;
  }

  private void line(String line) throws IOException {
    fileLines++;
    if (line.isBlank() || line.startsWith("#")) {
      return;
    }
    if (table == null && objects == null) {
      first.add(line);
      numbers.add(fileLines);
      if (first.size() == FIRST) {
        begin();
      }
    } else {
      row(line);
    }
  }

  private void begin() throws IOException {
    if (table != null || objects != null) {
      return;
    }
    Optional<String> obstacle = TableRows.obstacle(first);
    if (obstacle.isPresent()) {
      throw new IOException(obstacle.get());
    }
    if (first.get(0).startsWith("{")) {
      objects = new ObjectRows(tags);
    } else {
      table = new TableRows(first, tags);
    }
    for (String line : first) {
      row(line);
    }
  }

  private void row(String line) throws IOException {
    if (tags.size() > MOST_TAGS) {
      throw new IOException("it has more than " + MOST_TAGS + " tags, so that they seem to be something else; name the"
          + " columns 'time', 'signal' and 'value'");
    }
    if (objects != null) {
      objects.take(line);
    } else {
      table.take(lines++, line);
    }
  }
}
