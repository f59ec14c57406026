package dev.pawl.mqtt.client;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermission;

/** A file that holds a password or a private key. */
final class SecretFile {

  private SecretFile() {}

  /**
   * Does nothing if the file is its owner's and group's only. A secret that everybody on the machine may read is none
   * any more, and one command mends it, so this is refused and not just mentioned. Where files have no such permissions
   * nothing can be said.
   *
   * @throws ConnectionTrouble if everybody may read it
   */
  static void requireUnseen(Path file) {
    try {
      if (Files.getPosixFilePermissions(file).contains(PosixFilePermission.OTHERS_READ)) {
        throw new ConnectionTrouble("everybody on this machine may read " + file
            + ", which holds a secret; take that away with: chmod o= " + file);
      }
    } catch (IOException | UnsupportedOperationException e) {
      // Whoever reads it says so if it cannot be read.
    }
  }
}
