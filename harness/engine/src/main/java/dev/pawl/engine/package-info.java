/**
 * The heart: a rule book in, events in, verdicts out. The contract is here at the root: {@link EventSink} in,
 * {@link FindingListener} out, {@link RuleOutcome} at the end. No I/O and no clock; threads only where a recorded trace
 * is judged in groups. Uses only the rule model.
 */
package dev.pawl.engine;
