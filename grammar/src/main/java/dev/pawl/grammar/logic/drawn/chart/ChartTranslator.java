package dev.pawl.grammar.logic.drawn.chart;

import dev.pawl.grammar.logic.drawn.network.Surroundings;
import dev.pawl.grammar.logic.drawn.tree.Body;
import dev.pawl.grammar.logic.drawn.tree.Sequence;
import dev.pawl.grammar.logic.tree.Statement;
import java.util.List;
import java.util.function.Function;

/** x. */
public final class ChartTranslator {

  private ChartTranslator() {}

  public static List<Statement> translate(Sequence sequence, Surroundings around,
      Function<List<Body>, List<Statement>> bodies) {
    return List.of();
  }
}
