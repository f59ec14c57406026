/**
 * What a recorded trace is worth as feedback to a controller under test, whose outputs the recorded ride did not have:
 * which signals follow which outputs, stated in bindings or taken for granted, and what becomes of them once an output
 * is not as recorded. Uses the engine's contract only.
 */
package dev.pawl.trace.feedback;
