package dev.pawl.cli.command;

import dev.pawl.cli.Console;
import dev.pawl.cli.option.FleetOptions;
import java.util.List;

/** Work by many, which is an archive of its own and is found where that lies beside pawl. */
public interface Fleet {

  /**
   * Judges the sessions that a manifest names.
   *
   * @return the exit status
   */
  int archive(String manifest, FleetOptions options, Console console);

  /**
   * Makes the runs of a campaign.
   *
   * @param words of the command, which {@link FleetCommand#campaign} reads again where the runs are made
   * @return the exit status
   */
  int campaign(StressSetup setup, List<String> words, FleetOptions options, Console console);
}
