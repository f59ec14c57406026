/**
 * The heart: a rule book in, events in, verdicts out. The contract is here at the root: {@link EventSink} in, {@link FindingListener}
 * out, {@link RuleOutcome} at the end. No I/O, no clock, no threads; uses only the rule model.
 */
package dev.pawl.engine;
