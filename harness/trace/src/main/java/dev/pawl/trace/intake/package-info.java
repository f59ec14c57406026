/**
 * What all trace formats share once a row is taken apart: tags become signals, texts become values, order and
 * duplicates are checked, and problems are counted and listed. Events leave here for the engine.
 */
package dev.pawl.trace.intake;
