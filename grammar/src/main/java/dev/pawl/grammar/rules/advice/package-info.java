/**
 * What can be said of a rule book without any trace: conditions that can never or must always be true, rules that
 * contradict each other, signals that no rule looks at. Uses {@code model} and {@code source}.
 */
package dev.pawl.grammar.rules.advice;
