package dev.pawl.fleet.archive;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.report.model.TraceResult;
import dev.pawl.run.EventSource;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

/**
 * A source that results call otherwise than its file.
 *
 * @param name what they call it
 */
record NamedSource(String name, EventSource source) implements EventSource {

  @Override
  public Optional<Path> file() {
    return source.file();
  }

  @Override
  public List<Path> files() {
    return source.files();
  }

  @Override
  public boolean reacts() {
    return source.reacts();
  }

  @Override
  public EventSource forAnotherLook() {
    return new NamedSource(name, source.forAnotherLook());
  }

  @Override
  public Run begin(boolean[] needed) throws IOException {
    return source.begin(needed);
  }

  @Override
  public RuleBook judgedBy(RuleBook book) {
    return source.judgedBy(book);
  }

  @Override
  public TraceResult examined(TraceResult result) {
    return source.examined(result);
  }
}
