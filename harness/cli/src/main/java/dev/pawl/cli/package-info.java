/**
 * The {@code pawl} command: the outermost layer, and the only one that knows of streams, the environment, files named by a user,
 * threads and the clock. Wiring only; what a command does lives in the layers below.
 */
package dev.pawl.cli;
