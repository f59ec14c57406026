/**
 * Which signal lives on which topic, in which form: the section {@code topics} of a bindings file. Uses the bindings
 * text form of the trace readers, so that conversions are written the same for a topic as for a logged tag.
 */
package dev.pawl.mqtt.binding;
