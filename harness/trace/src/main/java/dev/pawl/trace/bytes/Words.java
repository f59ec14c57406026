package dev.pawl.trace.bytes;

import java.lang.invoke.MethodHandles;
import java.lang.invoke.VarHandle;
import java.nio.ByteOrder;

/**
 * Eight bytes at a time: a word holds the byte at the lower address in its lower bits, so that the first match is the
 * lowest set bit.
 *
 * <p>The tests for a byte within a word are the well-known exact-first-match forms: a carry can only make false matches
 * above a true one, and only the lowest match is ever used.
 */
public final class Words {

  private static final VarHandle LONG = MethodHandles.byteArrayViewVarHandle(long[].class, ByteOrder.LITTLE_ENDIAN);

  private static final long ONES = 0x0101010101010101L;
  private static final long HIGHS = 0x8080808080808080L;
  private static final long LOWS = 0x7F7F7F7F7F7F7F7FL;
  private static final long ZEROS_AS_TEXT = 0x3030303030303030L;

  private Words() {}

  /** The eight bytes that start at {@code at}. */
  public static long at(byte[] bytes, int at) {
    return (long) LONG.get(bytes, at);
  }

  /** The given byte in all eight places, as {@link #matches} wants it. */
  public static long repeat(int value) {
    return (value & 0xFF) * ONES;
  }

  /** Nonzero if the word has the byte; its lowest set bit then is bit 7 of the first such byte. */
  public static long matches(long word, long repeated) {
    long zeroWhereEqual = word ^ repeated;
    return (zeroWhereEqual - ONES) & ~zeroWhereEqual & HIGHS;
  }

  /** Bit 7 of each byte of the word that is the given one, and of no other. */
  public static long all(long word, long repeated) {
    long zeroWhereEqual = word ^ repeated;
    return ~((zeroWhereEqual & LOWS) + LOWS | zeroWhereEqual | LOWS);
  }

  /** Number of bytes before the first match. */
  public static int first(long matches) {
    return Long.numberOfTrailingZeros(matches) >>> 3;
  }

  /**
   * Nonzero if the word has a byte that is no decimal digit; its lowest set bit then is bit 7 of the first such byte.
   */
  public static long nonDigits(long word) {
    long digits = word ^ ZEROS_AS_TEXT;
    return (digits + 0x7676767676767676L | digits) & HIGHS;
  }

  /**
   * The number that the first {@code count} bytes spell.
   *
   * @param word bytes of which the first {@code count} are digits
   * @param count 0 to 8
   */
  public static long number(long word, int count) {
    // Two shifts, so that a count of zero shifts everything out; what is shifted in counts as leading zeros.
    int halfShift = 32 - (count << 2);
    return pack((word ^ ZEROS_AS_TEXT) << halfShift << halfShift);
  }

  /** Adds up neighbours three times: pairs, fours, all eight. */
  private static long pack(long digits) {
    long pairs = digits * 10 + (digits >>> 8);
    return ((pairs & 0x000000FF000000FFL) * 0x000F424000000064L
        + ((pairs >>> 16) & 0x000000FF000000FFL) * 0x0000271000000001L) >>> 32;
  }

  /** The first {@code count} bytes of the word with zeros after them; {@code count} is 0 to 8. */
  public static long head(long word, int count) {
    return count >= 8 ? word : word & ((1L << (count << 3)) - 1);
  }
}
