/**
 * The checked rule book: what the rule language means once names, types and units are resolved. Immutable records
 * without positions inside expressions, so that equal expressions are equal objects and the engine can compute each
 * once. All quantities are in SI base units, all durations in nanoseconds. Uses only {@code source}.
 */
package dev.pawl.grammar.rules.model;
