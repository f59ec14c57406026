package dev.pawl.cli;

import org.junit.jupiter.api.Tag;

/** Two hundred kills of each command, or as many as {@code -Dpawl.kills=N} says. */
@Tag("soak")
class CrashCampaignTest extends Crashes {

  @Override
  int kills() {
    return Integer.getInteger("pawl.kills", 200);
  }
}
