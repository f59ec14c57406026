package dev.pawl.plant.ride;

import dev.pawl.plant.text.Word;
import java.util.List;

/**
 * A way on which signals travel together, such as a bus to a cabinet: its messages are lost or late together.
 *
 * @param signals inputs and outputs that it carries
 */
public record Link(Word name, List<Word> signals) {

  public Link {
    signals = List.copyOf(signals);
  }
}
