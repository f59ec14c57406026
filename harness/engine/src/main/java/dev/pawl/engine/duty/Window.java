package dev.pawl.engine.duty;

/**
 * The window after a trigger, in moments.
 *
 * @param opens from the trigger to the opening
 * @param length from the opening to the deadline
 * @param slack twice the resolution in nanoseconds: what is nearer to the deadline than this is borderline; 0 for exact
 */
public record Window(long opens, long length, long slack) {

  /** The trigger instant alone. */
  public static final Window AT_TRIGGER = new Window(0, 0, 0);
}
