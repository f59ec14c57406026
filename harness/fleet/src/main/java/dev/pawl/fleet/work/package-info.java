/**
 * Numbered tasks as a source of Flink: they are handed to whoever asks, done by its slot on a thread beside Flink's
 * own, and what each comes to is one line. A task that is being done is part of a checkpoint, so that it is done again
 * where its worker ends; its line and its being done stand in one checkpoint or in none.
 */
package dev.pawl.fleet.work;
