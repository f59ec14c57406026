package dev.pawl.plant.scenario;

/** One thing that is done, or fails. Times are in seconds. */
public sealed interface Doing {

  <R> R accept(Visitor<R> visitor);

  /** A method for each record. */
  interface Visitor<R> {
    R visit(Hold it);
    R visit(Leave it);
    R visit(Perform it);
    R visit(Fail it);
    R visit(Swap it);
    R visit(Cut it);
  }

  /**
   * A signal is held at a value.
   *
   * @param lasts for so long; infinite until the next that is done to it
   */
  record Hold(int signal, double value, double lasts) implements Doing {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** A signal is left to itself again. */
  record Leave(int signal) implements Doing {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /** An act of the desk begins. */
  record Perform(Act act) implements Doing {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /**
   * Equipment or a flag fails, or is mended.
   *
   * @param device what the ride's file calls it, or a flag's signal
   * @param amount how much, where the fault has one: a share, seconds or times
   * @param begins whether it fails, else it is mended
   */
  record Fail(String device, Fault fault, double amount, boolean begins) implements Doing {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /**
   * The wires of two signals are swapped, or put right.
   *
   * @param begins whether they are swapped from now on
   */
  record Swap(int signal, int other, boolean begins) implements Doing {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }

  /**
   * The controller loses its power, and starts anew when that is back.
   *
   * @param lasts seconds without power
   * @param warm whether it keeps what is declared to be retained
   */
  record Cut(double lasts, boolean warm) implements Doing {
    @Override public <R> R accept(Visitor<R> visitor) { return visitor.visit(this); }
  }
}
