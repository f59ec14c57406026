package dev.pawl.run.control;

/**
 * An input of logic under test that is otherwise than recorded for a time.
 *
 * @param signal index of the input
 * @param value engine value that it has instead
 * @param from nanoseconds, from when on
 * @param back nanoseconds, from when on it is as recorded again; not before {@code until} where it stays turned
 * @param until nanoseconds, when the run ends
 */
record Turn(int signal, long value, long from, long back, long until) {}
