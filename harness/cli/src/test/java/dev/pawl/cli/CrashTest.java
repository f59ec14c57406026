package dev.pawl.cli;

/** A few kills, in every build. */
class CrashTest extends Crashes {

  private static final int KILLS = 2;

  @Override
  int kills() {
    return KILLS;
  }
}
