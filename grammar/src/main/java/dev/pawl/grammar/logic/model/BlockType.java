package dev.pawl.grammar.logic.model;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;

/** A function block type: the layout of its instances. Two block types are the same only if they are one object. */
public final class BlockType implements LogicType {

  private final String name;
  private final Optional<StandardBlock> standard;
  private final List<Variable> variables = new ArrayList<>();
  private int size;

  public BlockType(String name, Optional<StandardBlock> standard) {
    this.name = name;
    this.standard = standard;
  }

  @Override
  public String name() {
    return name;
  }

  /** Which block of the standard it is; empty for one written by the user. */
  public Optional<StandardBlock> standard() {
    return standard;
  }

  public List<Variable> variables() {
    return List.copyOf(variables);
  }

  /** Appends a variable at the end of the layout; used only while the block is being declared. */
  public void add(Variable variable) {
    variables.add(variable);
    size = variable.offset() + (variable.role() == Variable.Role.IN_OUT ? 1 : variable.type().size());
  }

  public Optional<Variable> variable(String wanted) {
    return variables.stream().filter(variable -> variable.name().equalsIgnoreCase(wanted)).findFirst();
  }

  @Override
  public int size() {
    return size;
  }

  @Override
  public <R> R match(Function<LogicType, R> scalar, Function<LogicType.ArrayType, R> array,
      Function<LogicType.StructureType, R> structure, Function<BlockType, R> block) {
    return block.apply(this);
  }

  @Override
  public Image initial() {
    Image image = Image.zeroes(size);
    variables.stream().filter(variable -> variable.role() != Variable.Role.IN_OUT)
        .forEach(variable -> image.put(variable.offset(), variable.initial()));
    return image;
  }

  @Override
  public String toString() {
    return name;
  }
}
