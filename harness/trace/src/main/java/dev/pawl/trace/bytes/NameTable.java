package dev.pawl.trace.bytes;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.SplittableRandom;

/**
 * A fixed set of names, found from their bytes with one probe: a perfect hash over the length and the first and last
 * eight bytes, chosen when the table is built, then a comparison word by word.
 *
 * <p>Names that agree in length and in their first and last eight bytes cannot be told apart by the hash; they are
 * chained and compared one after the other.
 */
public final class NameTable {

  /** Bytes before and after a name that must be readable, whatever they hold. */
  public static final int SLACK = 16;

  private static final int ATTEMPTS = 4_000;

  /** Larger sets are chained without a search for a perfect hash. */
  private static final int LARGEST_PERFECT = 128;

  private final byte[][] names;
  private final long[] heads;
  private final long[] tails;
  private final int[] slots;
  private final int[] next;
  private final int[] lengths;
  private final long seed;
  private final int shift;

  /** A table in which each name's number is its place in the list. Names must differ. */
  public NameTable(List<String> names) {
    int count = names.size();
    this.names = new byte[count][];
    this.heads = new long[count];
    this.tails = new long[count];
    this.lengths = new int[count];
    this.next = new int[count];
    long[] keys = new long[count];
    for (int i = 0; i < count; i++) {
      byte[] text = names.get(i).getBytes(StandardCharsets.UTF_8);
      byte[] padded = new byte[text.length + 2 * SLACK];
      System.arraycopy(text, 0, padded, SLACK, text.length);
      this.names[i] = padded;
      lengths[i] = text.length;
      heads[i] = head(padded, SLACK, text.length);
      tails[i] = tail(padded, SLACK, text.length);
      keys[i] = key(heads[i], tails[i], text.length);
    }
    int bits = Math.max(2, 33 - Integer.numberOfLeadingZeros(Math.max(1, count)));
    SplittableRandom random = new SplittableRandom(2718281828459045L);
    long candidate = random.nextLong() | 1;
    for (int attempt = 0; count <= LARGEST_PERFECT && attempt < ATTEMPTS
        && collides(keys, candidate, 64 - bits); attempt++) {
      candidate = random.nextLong() | 1;
      bits += attempt % 200 == 199 && bits < 16 ? 1 : 0;
    }
    this.seed = candidate;
    this.shift = 64 - bits;
    this.slots = new int[1 << bits];
    fill(keys);
  }

  /** Puts every name in its slot; those that share one are chained. Zero stands for none. */
  private void fill(long[] keys) {
    for (int i = 0; i < keys.length; i++) {
      int slot = (int) (keys[i] * seed >>> shift);
      next[i] = slots[slot];
      slots[slot] = i + 1;
    }
  }

  private static boolean collides(long[] keys, long seed, int shift) {
    long[] owner = new long[1 << (64 - shift)];
    boolean[] taken = new boolean[owner.length];
    for (long key : keys) {
      int slot = (int) (key * seed >>> shift);
      if (taken[slot] && owner[slot] != key) {
        return true;
      }
      taken[slot] = true;
      owner[slot] = key;
    }
    return false;
  }

  /** The first eight bytes; of a shorter name all, with zeros after them. */
  private static long head(byte[] bytes, int from, int length) {
    return Words.head(Words.at(bytes, from), length);
  }

  /** The last eight bytes; of a shorter name nothing. */
  private static long tail(byte[] bytes, int from, int length) {
    return length < 8 ? 0 : Words.at(bytes, from + length - 8);
  }

  private static long key(long head, long tail, int length) {
    return (head ^ Long.rotateLeft(tail, 29)) * 0x9E3779B97F4A7C15L + length;
  }

  /**
   * The number of the name at the given place, or -1.
   *
   * @param bytes readable for {@link #SLACK} bytes on both sides of the name
   */
  public int find(byte[] bytes, int from, int length) {
    long head = head(bytes, from, length);
    long tail = tail(bytes, from, length);
    int candidate = slots[(int) (key(head, tail, length) * seed >>> shift)] - 1;
    while (candidate >= 0) {
      if (heads[candidate] == head && tails[candidate] == tail && lengths[candidate] == length
          && (length <= 16 || sameBetween(names[candidate], bytes, from, length))) {
        return candidate;
      }
      candidate = next[candidate] - 1;
    }
    return -1;
  }

  /** The number of a name given as text, or -1. */
  public int find(String name) {
    byte[] text = name.getBytes(StandardCharsets.UTF_8);
    byte[] padded = new byte[text.length + 2 * SLACK];
    System.arraycopy(text, 0, padded, SLACK, text.length);
    return find(padded, SLACK, text.length);
  }

  /** Whether the bytes after the first eight and before the last eight are the name's. */
  private static boolean sameBetween(byte[] name, byte[] bytes, int from, int length) {
    for (int at = 8; at + 8 < length; at += 8) {
      if (Words.at(name, SLACK + at) != Words.at(bytes, from + at)) {
        return false;
      }
    }
    return true;
  }
}
