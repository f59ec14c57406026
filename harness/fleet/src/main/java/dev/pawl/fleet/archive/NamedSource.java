package dev.pawl.fleet.archive;

import dev.pawl.run.EventSource;
import dev.pawl.run.SourceOfAnother;
import java.io.IOException;

/**
 * A source that results call otherwise than its file.
 *
 * @param name what they call it
 */
record NamedSource(String name, EventSource source) implements SourceOfAnother {

  @Override
  public EventSource forAnotherLook() {
    return new NamedSource(name, source.forAnotherLook());
  }

  @Override
  public Run begin(boolean[] needed) throws IOException {
    return source.begin(needed);
  }
}
