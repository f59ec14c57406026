/**
 * A look at a log of which nothing is known yet: its form, its tags, and how each behaves. Nothing here is used for
 * judging. Uses the readers' way to a file's bytes, and nothing else of them.
 */
package dev.pawl.trace.survey;
