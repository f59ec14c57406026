package dev.pawl.grammar.logic.model;

import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;

/**
 * A stretch of memory that a variable names: {@code anchor + offset + sum((index - low) * stride)}.
 *
 * @param anchor where it is counted from
 * @param offset fixed distance in slots
 * @param steps what the indices add
 * @param type what is there
 */
public record Place(Anchor anchor, int offset, List<IndexStep> steps, LogicType type) implements Code {

  public Place {
    steps = List.copyOf(steps);
  }

  /** Where a place is counted from. */
  public sealed interface Anchor {

    /** The answer for the one it is. */
    <R> R match(Function<Fixed, R> fixed, Function<Instance, R> instance, Function<Pointer, R> pointer);
  }

  /** The start of memory. */
  public record Fixed() implements Anchor {
    @Override
    public <R> R match(Function<Fixed, R> fixed, Function<Instance, R> instance, Function<Pointer, R> pointer) {
      return fixed.apply(this);
    }
  }

  /** The start of the function block instance that runs. */
  public record Instance() implements Anchor {
    @Override
    public <R> R match(Function<Fixed, R> fixed, Function<Instance, R> instance, Function<Pointer, R> pointer) {
      return instance.apply(this);
    }
  }

  /** The address that another slot holds: a VAR_IN_OUT parameter. */
  public record Pointer(Place slot) implements Anchor {
    @Override
    public <R> R match(Function<Fixed, R> fixed, Function<Instance, R> instance, Function<Pointer, R> pointer) {
      return pointer.apply(this);
    }
  }

  /** One index, checked against its bounds when it is evaluated. */
  public record IndexStep(Value index, long low, long high, int stride, Position position) {}

  @Override
  public List<Code> parts() {
    return steps.stream().<Code>map(IndexStep::index).toList();
  }

  public static Place fixed(int address, LogicType type) {
    return new Place(new Fixed(), address, List.of(), type);
  }

  public static Place ofInstance(int offset, LogicType type) {
    return new Place(new Instance(), offset, List.of(), type);
  }

  /** A part of this place. */
  public Place part(int distance, LogicType partType) {
    return new Place(anchor, offset + distance, steps, partType);
  }

  /** An element of this place. */
  public Place element(List<IndexStep> further, LogicType elementType) {
    List<IndexStep> all = new ArrayList<>(steps);
    all.addAll(further);
    return new Place(anchor, offset, all, elementType);
  }

  /** Whether the address is known before the program runs. */
  public boolean isStatic() {
    return anchor instanceof Fixed && steps.isEmpty();
  }
}
