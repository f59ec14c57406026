package dev.pawl.trace.intake;

import dev.pawl.trace.bytes.Decimals;

/** How far a logged value can be trusted. Anything but good makes the signal unknown. */
public enum Quality {
  GOOD,
  NOT_GOOD,
  /** A word that is none of the known ones. */
  UNRECOGNISED;

  /** All spellings, for messages. */
  public static final String CHOICES =
      "good, bad, uncertain and stale; numbers of OPC such as 192, 0, 64 and 0xC0; and 500 for stale";

  private static final String[] WORDS = {"good", "bad", "uncertain", "stale"};
  private static final int STALE = 500;
  private static final int LONGEST_SHORT = 4;
  private static final int LONGEST = 16;

  /** The quality that a word or number states, in any case; an empty one states good. */
  public static Quality of(byte[] bytes, int from, int to) {
    if (from == to) {
      return GOOD;
    }
    if (to - from > LONGEST) {
      return UNRECOGNISED;
    }
    if (Decimals.isDigit(bytes[from])) {
      return bytes[from] == '0' && to - from > 2 && (bytes[from + 1] | 0x20) == 'x' ? hexadecimal(bytes, from + 2, to)
          : decimal(bytes, from, to);
    }
    for (int word = 0; word < WORDS.length; word++) {
      if (ValueReader.spells(WORDS[word], bytes, from, to)) {
        return word == 0 ? GOOD : NOT_GOOD;
      }
    }
    return UNRECOGNISED;
  }

  private static Quality decimal(byte[] bytes, int from, int to) {
    long number = 0;
    for (int at = from; at < to; at++) {
      if (!Decimals.isDigit(bytes[at])) {
        return UNRECOGNISED;
      }
      number = number * 10 + bytes[at] - '0';
    }
    return number == STALE ? NOT_GOOD : number > 0xFFFF ? ofStatus(number) : ofBits((int) (number >> 6 & 3));
  }

  private static Quality hexadecimal(byte[] bytes, int from, int to) {
    long number = 0;
    for (int at = from; at < to; at++) {
      int digit = Character.digit(bytes[at], 16);
      if (digit < 0) {
        return UNRECOGNISED;
      }
      number = number << 4 | digit;
    }
    return to - from > LONGEST_SHORT ? ofStatus(number) : ofBits((int) (number >> 6 & 3));
  }

  /** The two upper bits of the lower byte, as in sixteen bits of classic OPC (from memory). */
  private static Quality ofBits(int bits) {
    return switch (bits) {
      case 3 -> GOOD;
      case 0, 1 -> NOT_GOOD;
      default -> UNRECOGNISED;
    };
  }

  /** The two upper bits of thirty-two, as in the status codes of OPC UA (from memory). */
  private static Quality ofStatus(long number) {
    return number >>> 32 != 0 ? UNRECOGNISED : switch ((int) (number >>> 30)) {
      case 0 -> GOOD;
      case 1, 2 -> NOT_GOOD;
      default -> UNRECOGNISED;
    };
  }
}
