package dev.pawl.trace.intake;

import dev.pawl.trace.bytes.NameTable;

/**
 * The tags that carry signals, as they stay for the whole reading.
 *
 * @param table finds the channel of a tag
 * @param readers the readers of values, by channel
 * @param flips by channel, 0 or 1 to combine with a logged bit by exclusive or; -1 if values are no plain bits
 */
public record BoundTags(NameTable table, ValueReader[] readers, byte[] flips) {}
