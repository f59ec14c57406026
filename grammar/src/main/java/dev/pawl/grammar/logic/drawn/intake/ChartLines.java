package dev.pawl.grammar.logic.drawn.intake;

import dev.pawl.grammar.logic.drawn.tree.Element.Link;
import dev.pawl.grammar.logic.drawn.xml.XmlNode;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;

/**
 * The lines of a chart in either format: which steps each transition leaves and enters. They are followed against
 * their direction, as they are exported.
 */
final class ChartLines {

  /** What a part of a chart is. */
  enum Kind {
    STEP, JUMP, TRANSITION, SELECTION_DIVERGENCE, SELECTION_CONVERGENCE, SIMULTANEOUS_DIVERGENCE,
    SIMULTANEOUS_CONVERGENCE, OTHER
  }

  /**
   * Something with lines to it.
   *
   * @param word what the format calls it
   * @param step the name of the step that it is, or leads to; empty for all else
   * @param links what its lines come from, by their numbers
   */
  record Part(Kind kind, String word, String step, List<Link> links, XmlNode node) {}

  private final Reading reading;
  private final Map<Long, Part> parts = new LinkedHashMap<>();
  private final Map<XmlNode, Set<String>> entered = new HashMap<>();
  private final Set<XmlNode> told = new HashSet<>();

  ChartLines(Reading reading) {
    this.reading = reading;
  }

  void add(long id, Part part) {
    parts.putIfAbsent(id, part);
  }

  boolean has(long id) {
    return parts.containsKey(id);
  }

  /** Follows the lines of all steps and jumps; only then is it known what transitions enter. */
  void follow() {
    parts.values().stream().filter(part -> part.kind() == Kind.STEP || part.kind() == Kind.JUMP)
        .forEach(part -> up(part, part, new LinkedHashSet<>()));
  }

  /** The parts that the lines to a part come from. */
  List<Part> before(Part part) {
    List<Part> before = new ArrayList<>();
    for (Link link : part.links()) {
      Part from = parts.get(link.from());
      if (from == null) {
        wrong(part.node(), "the connection comes from localId " + link.from() + ", which is not here",
            "draw it again");
      } else {
        before.add(from);
      }
    }
    return before;
  }

  /** Notes of each transition before a step, or before a jump to it, that it enters the step. */
  private void up(Part part, Part step, Set<Part> seen) {
    for (Part before : before(part)) {
      switch (before.kind()) {
        case TRANSITION -> entered.computeIfAbsent(before.node(), unused -> new LinkedHashSet<>())
            .add(step.step().toUpperCase(Locale.ROOT));
        case SELECTION_CONVERGENCE, SIMULTANEOUS_DIVERGENCE -> {
          if (seen.add(before)) {
            up(before, step, seen);
          }
        }
        default -> wrong(part.node(), "between two steps there is a transition, but <" + before.word()
            + "> leads straight to <" + part.word() + "> here", "draw the transition between them");
      }
    }
  }

  /** The steps that a transition leaves, in upper case; a message where it leaves or enters none. */
  List<String> left(Part transition) {
    Set<String> steps = new LinkedHashSet<>();
    left(transition, steps, new LinkedHashSet<>());
    if (steps.isEmpty()) {
      wrong(transition.node(), "the transition follows no step",
          "connect it to the step that it ends, or leave it out");
    } else if (entered(transition).isEmpty()) {
      wrong(transition.node(), "the transition leads to no step",
          "connect the step that comes next, or a jump to it");
    }
    return List.copyOf(steps);
  }

  private void left(Part part, Set<String> steps, Set<Part> seen) {
    for (Part before : before(part)) {
      switch (before.kind()) {
        case STEP -> steps.add(before.step().toUpperCase(Locale.ROOT));
        case SELECTION_DIVERGENCE, SIMULTANEOUS_CONVERGENCE -> {
          if (seen.add(before)) {
            left(before, steps, seen);
          }
        }
        default -> wrong(part.node(), "between two transitions there is a step, but <" + before.word()
            + "> leads straight to <" + part.word() + "> here", "draw the step between them");
      }
    }
  }

  /** The steps that a transition enters, in upper case. */
  List<String> entered(Part transition) {
    return List.copyOf(entered.getOrDefault(transition.node(), Set.of()));
  }

  /** Tells what is wrong with a part, once: the rest follows from it. */
  private void wrong(XmlNode node, String message, String hint) {
    if (isNews(node)) {
      reading.error(node.position(), message, hint);
    }
  }

  /** Whether nothing wrong with a part was told before; now it is taken as told. */
  boolean isNews(XmlNode node) {
    return told.add(node);
  }
}
