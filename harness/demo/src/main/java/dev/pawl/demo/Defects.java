package dev.pawl.demo;

/**
 * What a change to the controller's logic got wrong.
 *
 * @param idleTimerLost the lift never idles
 * @param liftInterlockLost a dispatch no longer waits for the lift to be clear
 * @param stopDelay scans by which an emergency stop reaches the lift drive late
 */
record Defects(boolean idleTimerLost, boolean liftInterlockLost, int stopDelay) {

  static final Defects NONE = new Defects(false, false, 0);
}
