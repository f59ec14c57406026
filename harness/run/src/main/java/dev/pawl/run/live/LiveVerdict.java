package dev.pawl.run.live;

import dev.pawl.grammar.rules.model.Rule;

/**
 * The verdict on one rule of a live feed.
 *
 * @param label the verdict in words, with what its evidence lacks
 * @param broken whether the rule is broken
 */
public record LiveVerdict(Rule rule, String label, boolean broken) {}
