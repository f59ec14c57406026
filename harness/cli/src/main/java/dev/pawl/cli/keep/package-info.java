/** The files that commands write: none takes the place of another unasked, and each is whole or not there. */
package dev.pawl.cli.keep;
