package dev.pawl.report.html;

import dev.pawl.report.model.Picture;
import java.util.Locale;
import java.util.StringJoiner;

/**
 * What the page's script needs to open a picture as a timeline, as JSON: instants in seconds from the marked origin,
 * and of each track its changes. Numbers are rounded to what can be seen.
 */
final class Timeline {

  private static final double SECOND = 1e9;

  private Timeline() {}

  static String of(Picture picture, MarkedInstants marks) {
    StringJoiner tracks = new StringJoiner(",", "[", "]");
    picture.wide().orElse(picture).tracks().forEach(track -> tracks.add(track(track, marks.origin())));
    StringJoiner instants = new StringJoiner(",", "[", "]");
    marks.marks().forEach(mark -> instants.add("[" + seconds(mark.time() - marks.origin()) + "," + text(mark.label())
        + "]"));
    Picture whole = picture.wide().orElse(picture);
    return "{\"from\":" + seconds(whole.from() - marks.origin()) + ",\"to\":" + seconds(whole.to() - marks.origin())
        + ",\"marks\":" + instants + ",\"tracks\":" + tracks + "}";
  }

  private static String track(Picture.Track track, long origin) {
    StringJoiner points = new StringJoiner(",", "[", "]");
    for (int i = 0; i < track.times().length; i++) {
      double value = track.values()[i];
      points.add(seconds(track.times()[i] - origin)).add(Double.isNaN(value) ? "null" : rounded(value, 6));
    }
    StringJoiner names = new StringJoiner(",", "[", "]");
    track.names().forEach(name -> names.add(text(name)));
    return "{\"name\":" + text(track.signal()) + ",\"unit\":" + text(track.unit()) + ",\"names\":" + names
        + ",\"points\":" + points + "}";
  }

  private static String seconds(long nanoseconds) {
    return rounded(nanoseconds / SECOND, 4);
  }

  private static String rounded(double value, int places) {
    String text = String.format(Locale.ROOT, "%." + places + "f", value);
    return text.replaceFirst("\\.?0+$", "").replaceFirst("^-0$", "0");
  }

  private static String text(String plain) {
    StringBuilder json = new StringBuilder("\"");
    plain.codePoints().forEach(c -> {
      if (c == '"' || c == '\\') {
        json.append('\\').appendCodePoint(c);
      } else if (c < 32) {
        json.append(' ');
      } else {
        json.appendCodePoint(c);
      }
    });
    return json.append('"').toString();
  }
}
