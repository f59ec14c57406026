package dev.pawl.run;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.report.model.TraceResult;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

/** A source around another one, which is asked for all that the outer one does not answer for itself. */
public interface SourceOfAnother extends EventSource {

  /** The other one. */
  EventSource source();

  @Override
  default String name() {
    return source().name();
  }

  @Override
  default Optional<Path> file() {
    return source().file();
  }

  @Override
  default List<Path> files() {
    return source().files();
  }

  @Override
  default boolean reacts() {
    return source().reacts();
  }

  @Override
  default RuleBook judgedBy(RuleBook book) {
    return source().judgedBy(book);
  }

  @Override
  default TraceResult examined(TraceResult result) {
    return source().examined(result);
  }
}
