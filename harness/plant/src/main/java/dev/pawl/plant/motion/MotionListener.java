package dev.pawl.plant.motion;

/** Whoever has to know what trains do. */
public interface MotionListener {

  /** A train has moved from its place at one time to that at another, without turning round between. */
  void moved(Train train, double from, double to);

  /** A train has run into the one ahead, or backward into the one behind, by a difference of speeds. */
  void touched(Train behind, Train ahead, double time, double speed);

  /** A train has gone where its track does not lead. */
  void strayed(Train train, double time, String what);
}
