/**
 * The judging of a recorded trace in groups of rules, each with its own evaluation, which takes its events of a block
 * at a time; on one thread or on several. Rules do not depend on each other, so that the verdicts are those of one
 * engine.
 */
package dev.pawl.engine.groups;
