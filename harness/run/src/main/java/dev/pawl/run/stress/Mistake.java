package dev.pawl.run.stress;

import dev.pawl.grammar.source.Source;
import java.util.List;

/**
 * One mistake planted in logic.
 *
 * @param kind what kind of mistake
 * @param file the file that it is in
 * @param line where, counted from 1
 * @param statement the line at which the statement begins that it is part of
 * @param before the words that are changed, on one line
 * @param after what they become
 * @param text the whole file with the mistake
 */
record Mistake(String kind, String file, int line, int statement, String before, String after, String text) {

  /** The files of the program with the mistake in them. */
  List<Source> in(List<Source> sources) {
    return sources.stream().map(source -> source.name().equals(file) ? new Source(file, text) : source).toList();
  }
}
