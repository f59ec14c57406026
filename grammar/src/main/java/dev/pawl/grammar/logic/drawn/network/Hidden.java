package dev.pawl.grammar.logic.drawn.network;

import dev.pawl.grammar.logic.tree.Initializer;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.logic.tree.TypeSpecification;
import dev.pawl.grammar.logic.tree.VariableBlock;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Variables of a unit that nobody declared: their names have a blank in them, so that no text can name them. */
public final class Hidden {

  private final List<VariableBlock.Variables> variables = new ArrayList<>();
  private int wires;

  /** A name that nothing else has. */
  public Name fresh(String kind, Position position) {
    return new Name(kind + " " + ++wires, position);
  }

  /** A new variable that keeps its value from scan to scan, in each instance its own. */
  public Name kept(String kind, TypeSpecification type, Optional<Initializer> first, Position position) {
    Name name = fresh(kind, position);
    declare(name, type, first);
    return name;
  }

  /** A variable of a given name. */
  public void declare(Name name, TypeSpecification type, Optional<Initializer> first) {
    variables.add(new VariableBlock.Variables(List.of(name), Optional.empty(), type, first));
  }

  public Name kept(String kind, String type, Position position) {
    return kept(kind, new TypeSpecification.Named(new Name(type, position)), Optional.empty(), position);
  }

  /** Where each was needed. */
  public List<Position> places() {
    return variables.stream().map(it -> it.names().get(0).position()).toList();
  }

  /** Their declaration; empty where there are none. */
  public Optional<VariableBlock> block(Position position) {
    return variables.isEmpty() ? Optional.empty()
        : Optional.of(new VariableBlock(VariableBlock.Section.VAR, false, false, variables, position));
  }
}
