/**
 * The judging of one trace on several threads: the rules are divided, each share has an engine of its own, and all see the same events in the same
 * order. Rules do not depend on each other, so that the verdicts are those of one engine.
 */
package dev.pawl.engine.divided;
