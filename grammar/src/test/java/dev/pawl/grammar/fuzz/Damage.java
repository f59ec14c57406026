package dev.pawl.grammar.fuzz;

import java.util.List;
import java.util.SplittableRandom;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/** Texts made from others by changes that keep whole words, so that many get past the parser; the same seed gives the same text. */
final class Damage {

  private static final Pattern WORD = Pattern.compile("\\w+|\\s+|[^\\w\\s]");

  private final List<String[]> texts;

  Damage(List<String> texts) {
    this.texts = texts.stream().map(text -> WORD.matcher(text).results().map(result -> result.group()).toArray(String[]::new))
        .filter(words -> words.length > 0).toList();
  }

  String text(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    String[] words = texts.get(random.nextInt(texts.size())).clone();
    for (int changes = 1 + random.nextInt(4); changes > 0; changes--) {
      String[] other = texts.get(random.nextInt(texts.size()));
      int at = random.nextInt(words.length);
      int from = random.nextInt(other.length);
      switch (random.nextInt(5)) {
        case 0 -> words[at] = "";
        case 1 -> words[at] = other[from];
        case 2 -> words[at] = words[random.nextInt(words.length)];
        case 3 -> words[at] += String.join("", List.of(other).subList(from, Math.min(other.length, from + 1 + random.nextInt(20))));
        default -> words = cut(words, at, Math.min(words.length, at + random.nextInt(10)));
      }
    }
    return String.join("", words);
  }

  private static String[] cut(String[] words, int from, int to) {
    return from == 0 && to == words.length ? words
        : Stream.concat(Stream.of(words).limit(from), Stream.of(words).skip(to)).toArray(String[]::new);
  }
}
