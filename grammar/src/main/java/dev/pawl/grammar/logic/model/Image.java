package dev.pawl.grammar.logic.model;

import java.util.Arrays;

/**
 * The first values of a stretch of memory.
 *
 * @param words one per slot
 * @param texts one per slot; null where the slot holds no string
 */
public record Image(long[] words, String[] texts) {

  public static Image zeroes(int size) {
    return new Image(new long[size], new String[size]);
  }

  public static Image word(long word) {
    return new Image(new long[] {word}, new String[1]);
  }

  public static Image text(String text) {
    return new Image(new long[1], new String[] {text});
  }

  public int size() {
    return words.length;
  }

  /** Writes another image over this one, from {@code offset} on. */
  public void put(int offset, Image part) {
    System.arraycopy(part.words, 0, words, offset, part.size());
    System.arraycopy(part.texts, 0, texts, offset, part.size());
  }

  /** This image so many times, one after the other. */
  public Image repeated(int count) {
    Image image = zeroes(size() * count);
    for (int i = 0; i < count; i++) {
      image.put(i * size(), this);
    }
    return image;
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Image image && Arrays.equals(words, image.words) && Arrays.equals(texts, image.texts);
  }

  @Override
  public int hashCode() {
    return 31 * Arrays.hashCode(words) + Arrays.hashCode(texts);
  }
}
