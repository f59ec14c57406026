package dev.pawl.report.model;

import java.util.List;

/**
 * The network or the steps that wrote an output, as they were drawn, with what everything was when they were last
 * evaluated up to the instant that a finding is about.
 *
 * @param title where it is drawn, such as {@code Lift, network 3}
 * @param signal the output
 * @param time nanoseconds, when it was last evaluated
 * @param boxes what is drawn, in the order of evaluation
 * @param wires what connects them
 */
public record Drawing(String title, String signal, long time, List<Box> boxes, List<Wire> wires) {

  public Drawing {
    boxes = List.copyOf(boxes);
    wires = List.copyOf(wires);
  }

  /** What a box is. */
  public enum Shape {
    RAIL,
    CONTACT,
    COIL,
    BLOCK,
    /** A variable or literal that is read. */
    READ,
    /** A variable that is written. */
    WRITTEN,
    /** A jump or return. */
    LEAVE,
    STEP,
    TRANSITION
  }

  /**
   * Something that is drawn. Values are in the words of the program, such as {@code TRUE}, {@code 12} or {@code 2 s};
   * empty where they are not known.
   *
   * @param name of its variable, type, step or condition
   * @param instance of a block; empty for a function and for all else
   * @param mark {@code NOT}, {@code rises}, {@code falls}, {@code set}, {@code reset} or {@code initial}; may be empty
   * @param value of its variable: of one that is written, afterwards
   * @param writes whether it is what wrote the output
   * @param inputs the places at which it takes something; of a transition the variables of its condition
   * @param outputs the places at which something comes out; of a step what it controls
   */
  public record Box(Shape shape, String name, String instance, String mark, String value, boolean writes,
      List<Port> inputs, List<Port> outputs) {
    public Box {
      inputs = List.copyOf(inputs);
      outputs = List.copyOf(outputs);
    }
  }

  /** A place at a box. */
  public record Port(String name, boolean negated, String value) {}

  /**
   * A connection.
   *
   * @param from index of a box
   * @param output index of its output
   * @param to index of a box
   * @param input index of its input
   * @param value what it carries; empty where that is not known
   * @param last whether it carries what came out in the scan before
   */
  public record Wire(int from, int output, int to, int input, String value, boolean last) {}
}
