package dev.pawl.engine.reference;

/**
 * How far what was seen can be from what was, in moments.
 *
 * @param longer how much longer the time from a trigger to its response may have been; less than this
 * @param shorter how much shorter
 */
record Slack(long longer, long shorter) {

  /** By the resolution and the longest sampling periods behind trigger and demand, in nanoseconds. */
  static Slack of(long resolution, long ofTrigger, long ofDemand) {
    return new Slack(2 * (resolution + ofTrigger), 2 * (resolution + ofDemand));
  }

  /** How much nearer or farther two changes may have been of which neither is the trigger. */
  long apart() {
    return Math.max(longer, shorter);
  }

  /** The last moment at which something can be near another. */
  static long closes(long moment, long slack) {
    return moment + Math.max(slack - 1, 0);
  }
}
