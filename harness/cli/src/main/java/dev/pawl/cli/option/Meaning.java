package dev.pawl.cli.option;

import dev.pawl.cli.CommandException;
import java.util.Optional;

/** What the words of an option mean. */
@FunctionalInterface
public interface Meaning<W, T> {

  /**
   * What these words mean.
   *
   * @throws CommandException if they mean nothing; it names the option
   */
  T of(String option, W words);

  /** A whole number. */
  static Meaning<Optional<String>, Integer> number(int usual, int least, int most) {
    return (option, word) -> {
      if (word.isEmpty()) {
        return usual;
      }
      try {
        int number = Integer.parseInt(word.get());
        if (number >= least && number <= most) {
          return number;
        }
      } catch (NumberFormatException e) {
        // Said below, as for a number out of range.
      }
      throw new CommandException(option + ": '" + word.get() + "' is not a whole number from " + least + " to " + most);
    };
  }

  /** One of two things by its word; the first is the usual one. */
  static <T> Meaning<Optional<String>, T> either(String usualWord, T usual, String otherWord, T other) {
    return (option, word) -> {
      String chosen = word.orElse(usualWord);
      if (!chosen.equals(usualWord) && !chosen.equals(otherWord)) {
        throw new CommandException(option + ": '" + chosen + "' is not known; write " + usualWord + " or " + otherWord);
      }
      return chosen.equals(usualWord) ? usual : other;
    };
  }
}
