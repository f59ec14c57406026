package dev.pawl.engine;

/** Is told of zones' counts as they are counted. Called on the thread that brings the events. */
public interface ZoneListener {

  /**
   * A zone was counted anew, or the last of its flags has been seen.
   *
   * @param time nanoseconds
   * @param zone index of the zone
   * @param least trains that are in it at least
   * @param most trains that are in it at most
   */
  void counted(long time, int zone, int least, int most);
}
