package dev.pawl.demo;

/** Rising and falling edges between one scan and the next. */
final class ScanEdges {

  private final boolean[] now = new boolean[Tag.values().length];
  private final boolean[] before = new boolean[Tag.values().length];

  void take(ScanImage image) {
    for (Tag tag : Tag.all()) {
      before[tag.ordinal()] = now[tag.ordinal()];
      now[tag.ordinal()] = image.on(tag);
    }
  }

  boolean rises(Tag tag) {
    return now[tag.ordinal()] && !before[tag.ordinal()];
  }

  boolean falls(Tag tag) {
    return !now[tag.ordinal()] && before[tag.ordinal()];
  }
}
