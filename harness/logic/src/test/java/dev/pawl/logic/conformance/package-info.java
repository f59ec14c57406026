/**
 * The language against IEC 61131-3, topic by topic. The standard's text is not at hand: what is cited from it is from
 * memory.
 */
package dev.pawl.logic.conformance;
