/**
 * The {@code pawl} command: the outermost layer, and the only one that knows of streams, the environment and what ends
 * a process. Commands, options and output only: what a command does lives in the rooms below.
 */
package dev.pawl.cli;
