package dev.pawl.cli.command;

import dev.pawl.cli.Console;
import dev.pawl.cli.option.FleetOptions;

/** Work by many, which is an archive of its own and is found where that lies beside pawl. */
public interface Fleet {

  /**
   * Judges the sessions that a manifest names.
   *
   * @return the exit status
   */
  int archive(String manifest, FleetOptions options, Console console);
}
