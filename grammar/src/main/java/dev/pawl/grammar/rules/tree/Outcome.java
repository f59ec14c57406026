package dev.pawl.grammar.rules.tree;

import dev.pawl.grammar.source.Position;
import java.util.Optional;

/**
 * What an example says its rule must give.
 *
 * @param verdict as written, such as {@code not exercised}
 * @param margin the margin, where stated
 * @param position where it stands
 */
public record Outcome(String verdict, Optional<Expression> margin, Position position) {}
